// The cut list: several lengths wanted of one section, over all the lengths of it there are.

import { useMemo, useState } from 'preact/hooks';
import { Frame } from '../../shell/Frame.tsx';
import { openedPhone } from '../../shell/state.ts';
import { Ticked } from '../AskedFields.tsx';
import { shopIn } from '../piece.ts';
import { NearMisses } from '../Results.tsx';
import { allowancesIn } from './allowances.ts';
import { sectionAskedIn, understandSection } from './asked.ts';
import { CutListAnswer } from './CutListAnswer.tsx';
import { LinesForm } from './LinesForm.tsx';
import { SawingWords } from './SawingWords.tsx';
import { sawOf } from './saw.ts';
import { type SectionServes, searchSections } from './search.ts';
import { useOffcuts } from './stock.ts';
import {
  cutList,
  EMPTY_LINE,
  type Kin,
  kinOf,
  readLines,
  type WantedLine,
  type WantedPiece,
  withoutMade,
} from './wants.ts';
import '../offcuts.css';
import './sections.css';

interface Asked {
  kin: string;
  structure: boolean;
  lines: WantedLine[];
}
// what is asked outlives a look at another screen
let unfinished: Asked | null = null;

export function CutListScreen() {
  const { unit, sawing } = openedPhone().identity;
  const pieces = useOffcuts();
  const kin = useMemo(() => kinOf(pieces, unit), [pieces, unit]);
  const [asked, setAsked] = useState<Asked>(() => begin(kin));
  const change = (part: Partial<Asked>): void =>
    setAsked((last) => {
      unfinished = { ...last, ...part };
      return unfinished;
    });
  const chosen = kin.find(({ key }) => key === asked.kin) ?? kin[0];
  if (!chosen) return <None />;
  const allowances = allowancesIn(unit, sawing);
  const saw = sawOf(allowances);
  const want = { ...chosen.want, structure: asked.structure };
  const shop = shopIn(unit, want.form);
  const found = searchSections(want, pieces, shop, saw, pieces.length);
  const read = readLines(asked.lines, unit);
  return (
    <Frame title="Cut list">
      <div class="cut-list">
        <form class="cut-list-asked" onSubmit={(event) => event.preventDefault()} noValidate>
          <KinChoice kin={kin} chosen={chosen} onChange={(key) => change({ kin: key })} />
          <Ticked
            label="For structure"
            checked={asked.structure}
            onChange={(structure) => change({ structure })}
          />
          <LinesForm
            lines={asked.lines}
            problems={read.problems}
            unit={unit}
            onChange={(lines) => change({ lines })}
          />
        </form>
        <Answer
          {...{ found, read, chosen }}
          onCut={(made) => change({ lines: withoutMade(asked.lines, made) })}
        />
        <SawingWords allowances={allowances} />
        {found.near.length > 0 && (
          <section class="not-cut">
            <h2>Not cut from</h2>
            <NearMisses near={found.near} />
          </section>
        )}
      </div>
    </Frame>
  );
}

function Answer(props: {
  found: ReturnType<typeof searchSections>;
  read: ReturnType<typeof readLines>;
  chosen: Kin;
  onCut: (made: readonly WantedPiece[]) => void;
}) {
  const { found, read, chosen, onCut } = props;
  const { unit, sawing } = openedPhone().identity;
  const lengths = found.serves.map(({ offcut, stock }: SectionServes) => ({ offcut, stock }));
  const saw = sawOf(allowancesIn(unit, sawing));
  const key = JSON.stringify([read.pieces, lengths, saw]);
  const list = useMemo(() => cutList(lengths, read.pieces, saw, unit), [key]);
  if (!read.pieces.length) return <p class="count">Write how long, and how many.</p>;
  return <CutListAnswer list={list} kin={chosen} saw={saw} unit={unit} onCut={onCut} />;
}

/** What was asked before; else of the section that the search asked for, with its length. */
function begin(kin: readonly Kin[]): Asked {
  const { unit } = openedPhone().identity;
  const asked = sectionAskedIn(location.search);
  if (!asked) return unfinished ?? { kin: kin[0]?.key ?? '', structure: true, lines: [EMPTY_LINE] };
  const { want } = understandSection(asked, unit);
  const like = kin.find(
    (one) =>
      one.want.form === want.form &&
      one.want.square === want.square &&
      (!want.alloy || one.want.alloy === want.alloy) &&
      (!want.temper || one.want.temper === want.temper) &&
      (want.sides ?? []).every((side) => one.want.sides?.includes(side)),
  );
  const first = { ...EMPTY_LINE, length: asked.length };
  const lines = unfinished && !asked.length ? unfinished.lines : [first];
  return { kin: like?.key ?? kin[0]?.key ?? '', structure: asked.structure, lines };
}

function KinChoice(props: { kin: readonly Kin[]; chosen: Kin; onChange: (key: string) => void }) {
  const { kin, chosen, onChange } = props;
  return (
    <label>
      Cut from
      <select value={chosen.key} onChange={(event) => onChange(event.currentTarget.value)}>
        {kin.map(({ key, words }) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
      <small>{chosen.together}</small>
    </label>
  );
}

function None() {
  return (
    <Frame title="Cut list">
      <p>
        No angle, channel or tube is entered yet. A cut list says which pieces to saw from which
        length, so that the least useful stock is spoiled.
      </p>
      <a class="button main" href="/offcut/new">
        Enter an offcut
      </a>
    </Frame>
  );
}
