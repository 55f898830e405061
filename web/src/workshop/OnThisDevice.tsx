// Whether Bucktail opens here without a network, and whether the browser keeps what is recorded.
import { useEffect, useState } from 'preact/hooks';
import { isInstalled, isIphone } from '../shell/installed.ts';
import { offlineReady } from '../shell/update.ts';
import { RulesHere } from './RulesHere.tsx';

type Lasting = 'asking' | 'yes' | 'no';

function useLasting(): { lasting: Lasting; request: () => Promise<void> } {
  const [lasting, setLasting] = useState<Lasting>('asking');
  const look = async (asked: Promise<boolean> | undefined): Promise<void> =>
    setLasting((await asked?.catch(() => false)) ? 'yes' : 'no');
  useEffect(() => void look(navigator.storage?.persisted?.()), []);
  return { lasting, request: () => look(navigator.storage?.persist?.()) };
}

export function OnThisDevice() {
  const { lasting, request } = useLasting();
  const [asked, setAsked] = useState(false);
  return (
    <section aria-labelledby="here">
      <h2 id="here">On this device</h2>
      <p>
        {offlineReady.value
          ? 'Bucktail opens here without a network.'
          : 'Bucktail is not wholly on this device yet. Stay within reach of the workshop computer ' +
            'a little longer; until then it may not open without a network.'}
      </p>
      <RulesHere />
      {lasting === 'yes' && <p>The browser keeps what is recorded here until you clear it.</p>}
      {lasting === 'no' && (
        <div class="way">
          <p class="note">
            The browser has not promised to keep what is recorded here. If the device runs short of
            room, or Bucktail is not opened for long, what is not sent could be cleared.{' '}
            {isInstalled() ? '' : installWords()}
          </p>
          <button type="button" onClick={() => request().then(() => setAsked(true))}>
            Ask the browser to keep it
          </button>
          <output class="outcome">
            {asked && 'The browser did not agree just now. What is sent is safe in any case.'}
          </output>
        </div>
      )}
    </section>
  );
}

function installWords(): string {
  return isIphone()
    ? 'Add it to the Home Screen (Share, then Add to Home Screen) and pair it there.'
    : 'Install it from the browser menu (Install app, or Add to Home screen) and ask again.';
}
