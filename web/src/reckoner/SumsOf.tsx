// The sums kept with a part or a rivet line, on its screen. The rules are loaded only where there
// are some.
import { later } from '../shell/later.tsx';
import type { State } from '../twins/fold.ts';

const KeptSums = later(async () => (await import('./KeptSums.tsx')).KeptSums, true);

export function SumsOf({ id, state }: { id: string; state: State }) {
  return state.sums?.length ? <KeptSums id={id} sums={state.sums} /> : null;
}
