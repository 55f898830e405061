// Screens that are loaded when they are first opened. The service worker has them on the phone all
// the same; only before its first visit is over can one be missing without a network.
import type { ComponentChildren, ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Frame } from './Frame.tsx';

type State<P> = { is: 'loading' } | { is: 'missing' } | { is: 'here'; Screen: ComponentType<P> };

/** `within`: the screen it is part of draws the frame already. */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
  within = false,
): ComponentType<P> {
  const Around = within ? Within : Frame;
  let loaded: ComponentType<P> | undefined;
  return function Later(props: P) {
    const [state, setState] = useState<State<P>>(
      loaded ? { is: 'here', Screen: loaded } : { is: 'loading' },
    );
    useEffect(() => {
      if (state.is !== 'loading') return;
      load().then(
        (Screen) => {
          loaded = Screen;
          setState({ is: 'here', Screen });
        },
        () => setState({ is: 'missing' }),
      );
    }, [state.is]);
    if (state.is === 'here') return <state.Screen {...props} />;
    if (state.is === 'loading') return <Around title="…">{null}</Around>;
    return (
      <Around title="Not on this device yet">
        <p class="problem" role="alert">
          This screen has not been fetched from the workshop computer yet. Come back within reach of
          it and try again; nothing is lost.
        </p>
        <button type="button" class="main" onClick={() => setState({ is: 'loading' })}>
          Try again
        </button>
      </Around>
    );
  };
}

function Within({ children }: { title: string; children: ComponentChildren }) {
  return <>{children}</>;
}
