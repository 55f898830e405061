// Chooses a part: from the list by name, number or place, or by scanning its tag.
import { find, rows, wayTo } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { choose, EVERYTHING, haystack, type Listed, underName, withStrips } from './listing.ts';
import { Picker } from './Picker.tsx';

interface Props {
  prompt: string;
  not: string[]; // parts that are not offered
  near?: string | null; // the assembly whose parts stand first
  onPick: (id: string) => void;
}

export function PartPicker({ prompt, not, near, onPick }: Props) {
  const parts = withStrips(rows('part'), []).filter((one) => !not.includes(one.row.id));
  return (
    <Picker
      prompt={prompt}
      found={(words) => {
        const hay = (one: Listed): string => haystack(one, () => '', wayTo);
        const found = choose(parts, { ...EVERYTHING, words }, hay).map((one) => one.row);
        const here = (row: Row): boolean => !!near && row.fields.assembly === near;
        return [...found.filter(here), ...found.filter((row) => !here(row))];
      }}
      under={(row) => underName(row, wayTo(row.place))}
      nothing="No other part has all of these words."
      scan="The tag of the part."
      read={(code) => {
        const thing = find(code);
        if (thing.is === 'thing' && thing.row.sort === 'part' && !not.includes(thing.row.id))
          return { id: thing.row.id };
        return {
          problem: 'That tag is not on a part that can be chosen here. Scan the tag of a part.',
        };
      }}
      onPick={onPick}
    />
  );
}
