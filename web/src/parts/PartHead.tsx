// What a part is and where it lies, in two sentences under its name.
import { WhereLine } from '../places/WhereLine.tsx';
import { openedPhone } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { State } from '../twins/fold.ts';
import { type Length, showThickness } from '../twins/lengths.ts';
import { counted } from './words.ts';

export function PartHead({ id, state }: { id: string; state: State }) {
  const said = partWords(state, openedPhone().identity.unit);
  const twin = row(state.twin as string | null);
  return (
    <div class="part-head">
      {said && <p>{said}</p>}
      {twin && (
        <p>
          Mirrored twin: <a href={`/part/${twin.id}`}>{twin.name}</a>
        </p>
      )}
      {typeof state.note === 'string' && <p class="faint">{state.note}</p>}
      <WhereLine id={id} />
    </div>
  );
}

function partWords(state: State, unit: 'in' | 'mm'): string {
  const text = (name: string): string => (state[name] as string | null | undefined) ?? '';
  const thickness = state.thickness as Length | null | undefined;
  const pieces = Number(state.pieces ?? 1);
  const station = text('station');
  return [
    text('number'),
    text('hand') && `${text('hand')} hand`,
    pieces === 1 ? '' : counted(pieces, 'piece'),
    [text('material'), thickness ? showThickness(thickness.nm, unit) : '']
      .filter(Boolean)
      .join(' '),
    station && `station ${station}`,
    row(text('assembly'))?.name ?? '',
  ]
    .filter(Boolean)
    .join(' · ');
}
