// Chooses a part: from the list by name, number or place, or by scanning its tag.
import { find, rows, wayTo } from '../shell/things.ts';
import { choose, EVERYTHING, haystack, underName, withStrips } from './listing.ts';
import { Picker } from './Picker.tsx';

interface Props {
  prompt: string;
  not: string[]; // parts that are not offered
  onPick: (id: string) => void;
}

export function PartPicker({ prompt, not, onPick }: Props) {
  const parts = withStrips(rows('part'), []).filter((one) => !not.includes(one.row.id));
  return (
    <Picker
      prompt={prompt}
      found={(words) =>
        choose(parts, { ...EVERYTHING, words }, (one) => haystack(one, () => '', wayTo)).map(
          (one) => one.row,
        )
      }
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
