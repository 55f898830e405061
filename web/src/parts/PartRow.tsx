// A part in a list: its name, number and place, its strip, and in words what a person must look at.
import { wayTo } from '../shell/things.ts';
import type { Listed } from './listing.ts';
import { underName } from './listing.ts';
import { SmallStrip } from './StepStrip.tsx';
import { listed } from './words.ts';

export function PartRow({ one: { row, strip } }: { one: Listed }) {
  const said = doubts(row.answers, strip);
  return (
    <li>
      <a href={`/part/${row.id}`}>
        <span class="words">
          <b class="name">{row.name}</b>
          <span class="under">{underName(row, wayTo(row.place).map(unbroken))}</span>
          {said && <span class="said">{said}</span>}
        </span>
        <SmallStrip strip={strip} />
      </a>
    </li>
  );
}

// "Shelf 3" stays on one line.
const unbroken = (name: string): string => name.replaceAll(' ', '\u00a0');

function doubts(answers: number, strip: string): string {
  const said = [
    strip.includes('l') ? 'look at the part' : '',
    answers ? 'two different answers' : '',
  ].filter(Boolean);
  const words = listed(said);
  return words && `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
