// Whether the person is in the middle of something that a restart of the app would tear apart: a
// run of scans, a form half filled in. What is recorded is safe either way.
import { computed, signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';

const going = signal(0);

export const inTheMiddle = computed(() => going.value > 0);

// Say so from now on; call what comes back when it is over.
export function begin(): () => void {
  going.value += 1;
  let over = false;
  return () => {
    if (!over) going.value -= 1;
    over = true;
  };
}

// For a screen: in the middle of something for as long as it is open and `active`.
export function useInTheMiddle(active: boolean): void {
  useEffect(() => (active ? begin() : undefined), [active]);
}
