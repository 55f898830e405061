// Chooses the part or rivet line that an answer is kept with: by its words, or by scanning its tag.
import { fastenerWords, type Line } from '../parts/lines.ts';
import { underName } from '../parts/listing.ts';
import { Picker } from '../parts/Picker.tsx';
import { find, rows, wayTo } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { thingsWith } from './picking.ts';

interface Props {
  not: string;
  onPick: (id: string) => void;
}

const under = (row: Row): string =>
  row.sort === 'line'
    ? `rivet line, ${fastenerWords(row.fields.line as Line)}`
    : underName(row, wayTo(row.place));

export function ThingPicker({ not, onPick }: Props) {
  const things = [...rows('part'), ...rows('line')].filter((one) => one.id !== not);
  return (
    <Picker
      prompt="Part or rivet line"
      found={(words) => thingsWith(things, words, under)}
      under={under}
      nothing={
        things.length
          ? 'No part or line has all of these words.'
          : 'There is no part or rivet line yet.'
      }
      scan="The tag of the part."
      read={(code) => {
        const thing = find(code);
        if (thing.is === 'thing' && thing.row.sort === 'part') return { id: thing.row.id };
        return { problem: 'That tag is not on a part. Scan the tag of a part.' };
      }}
      onPick={onPick}
    />
  );
}
