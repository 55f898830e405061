// The one pick of a run: an operation, or a place.

import { benchOf } from '../bench/sentences.ts';
import { withStrips } from '../parts/listing.ts';
import { counted } from '../parts/words.ts';
import { PlacePicker } from '../places/PlacePicker.tsx';
import { Frame } from '../shell/Frame.tsx';
import { allowSound } from '../shell/sounds.ts';
import { rows } from '../shell/things.ts';
import { OPERATIONS } from '../twins/marks.ts';
import { type Plan, planTitle, stepPlan } from './plan.ts';

interface Props {
  onStart: (plan: Plan) => void;
  onPut: () => void;
}

export function StartRun({ onStart, onPut }: Props) {
  const { ready } = benchOf(withStrips(rows('part'), rows('line')));
  const count = new Map(ready.map((one) => [one.row.op, one.parts.length]));
  return (
    <Frame title="One step on many parts">
      <p>Pick what was done. Then scan every part it was done to, one after another.</p>
      <ul class="plain operations">
        {OPERATIONS.map((row) => (
          <li key={row.op}>
            <button
              type="button"
              class="row"
              onClick={() => {
                allowSound();
                onStart(stepPlan(row.op));
              }}
            >
              <b>{planTitle(stepPlan(row.op), String)}</b>
              <span class="faint">{readyWords(count.get(row.op) ?? 0)}</span>
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class="main put" onClick={onPut}>
        Put things in a place
      </button>
    </Frame>
  );
}

const readyWords = (n: number): string => (n ? `${counted(n, 'part')} ready` : '');

export function PickPlace({ onPick }: { onPick: (place: string) => void }) {
  return (
    <Frame title="Put things in which place?">
      <PlacePicker
        mayAdd
        onPick={(place) => {
          allowSound();
          if (place) onPick(place.id);
        }}
      />
    </Frame>
  );
}
