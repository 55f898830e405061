// Where to cut a blank from sheet, drawn; with what, and in which of the ways that there are.

import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { openedPhone } from '../../shell/state.ts';
import type { Draft } from '../../store/outbox.ts';
import { showLength } from '../../twins/lengths.ts';
import { Choices } from '../Choices.tsx';
import { allowancesIn } from '../sections/allowances.ts';
import { placesByCurve } from './bycurve.ts';
import type { SheetProps } from './CutSheet.tsx';
import { metalOf, waysToCut } from './leaves.ts';
import { type Blank, wayOn } from './made.ts';
import type { Region } from './rings.ts';
import { Stays } from './Stays.tsx';

export interface Made {
  name: string;
  part: string | null;
  problem: string;
  drafts: () => Draft[];
  /** questions about it, and what comes of it in the record */
  asks: ComponentChildren;
  records: ComponentChildren;
}
interface Props extends SheetProps {
  blank: Blank;
  clearance: number;
  warning: string;
  made: Made;
}

type Tool = 'shears' | 'saw';
/** The last answer of this sitting: nobody changes the tool for every piece. */
const lastTool = signal<Tool>('shears');

export function WhereToCut({ blank, clearance, ...props }: Props) {
  const { identity } = openedPhone();
  const { kerf, narrowest } = allowancesIn(identity.unit, identity.sawing);
  const [tool, setTool] = useState<Tool>(lastTool.value);
  const [at, setAt] = useState(0);
  const width = tool === 'saw' ? kerf.nm : 0;
  const least = narrowest.nm;
  const { fields } = props;
  const key = JSON.stringify([blank, clearance, width, least, fields.shape, fields.grain]);
  const ways = useMemo(() => {
    const sheet = metalOf(fields.shape) as Region;
    const way = wayOn(fields.grain ?? 'unknown', blank.grain);
    const asked = { ...blank, clearance, kerf: width, way };
    return waysToCut(sheet, asked, least, placesByCurve(props.id, asked, least));
  }, [key]);
  const shown = ways[at % Math.max(ways.length, 1)];
  const choose = (chosen: Tool): void => {
    lastTool.value = chosen;
    setTool(chosen);
  };
  return (
    <>
      {fields.grain === 'unknown' && blank.grain !== 'any' && (
        <p class="note">
          The grain has to run one way in this piece, and that of the offcut is not known. Find it
          out before you cut.
        </p>
      )}
      <Choices
        legend="Cut with"
        name="tool"
        choices={[
          { value: 'shears', label: 'shears or snips' },
          { value: 'saw', label: `a saw, ${showLength(kerf.nm, identity.unit)} wide` },
        ]}
        value={tool}
        onChange={choose}
      />
      {!shown && <DoesNotFit count={blank.count} />}
      {shown && (
        <>
          {ways.length > 1 && (
            <p class="way-to-cut">
              <span>
                Way {(at % ways.length) + 1} of {ways.length}
                {at % ways.length === 0 && ': it leaves the largest useful piece'}.
              </span>
              <button type="button" onClick={() => setAt(at + 1)}>
                Another way
              </button>
            </p>
          )}
          <Stays key={`${key} ${at % ways.length}`} {...props} way={shown} kerf={width} />
        </>
      )}
    </>
  );
}

function DoesNotFit({ count }: { count: number }) {
  return (
    <p class="problem" role="alert">
      {count > 1
        ? 'They do not fit side by side in one row. Cut fewer at a time, or take another offcut.'
        : 'It does not fit on this offcut as it was measured. If it does, put the size of the offcut right first.'}
    </p>
  );
}
