// Cutting sheet: what is made of it. A piece wanted, a part of its own, or nothing that is entered.
import { useState } from 'preact/hooks';
import { TextField } from '../../parts/DescriptionFields.tsx';
import { TemplateField } from '../../parts/NeedsFields.tsx';
import { type Steps, stepsFrom, type Template, templateOf } from '../../parts/steps.ts';
import { openedPhone } from '../../shell/state.ts';
import { newId } from '../../store/ids.ts';
import type { Card } from '../../store/phone.ts';
import type { Row } from '../../store/rows.ts';
import { showThickness } from '../../twins/lengths.ts';
import { MakingFields, MakingRecords, useMaking } from '../../wanted/Making.tsx';
import { openPieces, pieceOf } from '../../wanted/open.ts';
import { type Asked, understand } from '../asked.ts';
import { type Choice, Choices, Typed } from '../Choices.tsx';
import { nameOf } from '../name.ts';
import { type Fields, notForStructure, pieceOf as stockOf } from '../piece.ts';
import type { Want } from '../wanted.ts';
import { anotherMetal, type Blank, blankOf, partDrafts, readBlank, type Typing } from './made.ts';
import { WhereToCut } from './WhereToCut.tsx';

export interface SheetProps {
  id: string;
  card: Card;
  fields: Fields;
}
type What = `wanted ${string}` | 'part' | 'nothing';

const NOT_WANTED: readonly Choice<What>[] = [
  { value: 'part', label: 'A part of its own' },
  { value: 'nothing', label: 'Something that is not entered' },
];
const MOST_OFFERED = 6;

export function CutSheet({ asked, ...props }: SheetProps & { asked: Asked }) {
  const { unit } = openedPhone().identity;
  const { want, is } = understand(asked, unit);
  const pieces = offered(props.fields, is === 'search' ? want : null);
  const [first] = pieces;
  const meant = first && is === 'search' && isAsked(first, want) ? first : undefined;
  const [what, setWhat] = useState<What>(meant ? `wanted ${meant.id}` : 'part');
  const piece = pieces.find(({ id }) => what === `wanted ${id}`);
  const choices: Choice<What>[] = [
    ...pieces.map(
      (one): Choice<What> => ({ value: `wanted ${one.id}`, label: `${one.name}, wanted` }),
    ),
    ...NOT_WANTED,
  ];
  return (
    <>
      <Choices
        legend="What is cut from it?"
        name="what"
        columns={1}
        choices={choices}
        value={what}
        onChange={setWhat}
      />
      {piece ? (
        <ForPiece key={piece.id} {...props} piece={piece} clearance={want.clearance_nm} />
      ) : (
        <ForItself key={what} {...props} asked={asked} enters={what === 'part'} />
      )}
    </>
  );
}

/** The pieces wanted that might be meant: what was asked for first, then those of this thickness. */
function offered({ thickness }: Fields, want: Want | null): Row[] {
  const rank = (row: Row): number => {
    if (want && isAsked(row, want)) return 0;
    return pieceOf(row).thickness.nm === thickness?.nm ? 1 : 2;
  };
  const all = openPieces().filter((row) => rank(row) < 2);
  return all.sort((one, other) => rank(one) - rank(other)).slice(0, MOST_OFFERED);
}

function isAsked(row: Row, { width_nm: width, height_nm: height }: Want): boolean {
  const { a, b } = pieceOf(row);
  const near = (one: number, other: number): boolean => Math.abs(one - other) < SAME_NM;
  return near(a.nm, width) && near(b.nm, height);
}
/** A side in an address is written to a few decimals. */
const SAME_NM = 20_000;

function ForPiece(props: SheetProps & { piece: Row; clearance: number }) {
  const { piece: row, fields, clearance, ...rest } = props;
  const { unit } = openedPhone().identity;
  const piece = pieceOf(row);
  const making = useMaking(row.id, piece);
  const reasons = notForStructure(stockOf(props.id, fields), unit);
  const warning = [
    anotherMetal(piece, fields, (nm) => showThickness(nm, unit)),
    reasons.length ? `Not offered for structure: ${shortly(reasons)}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
  return (
    <WhereToCut
      {...rest}
      fields={fields}
      blank={blankOf(piece)}
      clearance={clearance}
      warning={warning}
      made={{
        name: making.name,
        part: making.part,
        problem: making.wrong ? 'Put right what is marked above.' : '',
        drafts: () => making.drafts(unit),
        asks: <MakingFields id={row.id} piece={piece} making={making} />,
        records: <MakingRecords piece={piece} making={making} />,
      }}
    />
  );
}

const shortly = (reasons: string[]): string =>
  reasons.join('; ').replace(/: never for structure/g, '');

const GRAINS: readonly Choice<Want['grain']>[] = [
  { value: 'any', label: 'either way' },
  { value: 'along width', label: 'along the first side' },
  { value: 'along height', label: 'along the second' },
];

function ForItself(props: SheetProps & { asked: Asked; enters: boolean }) {
  const { asked, enters, fields, ...rest } = props;
  const { unit } = openedPhone().identity;
  const [part] = useState(newId);
  const [steps, setSteps] = useState<Steps>(() =>
    stepsFrom(templateOf('small clip') as Template, null),
  );
  const [typed, setTyped] = useState<Typing>({
    name: '',
    width: asked.width,
    height: asked.height,
    length: '',
    count: '',
    grain: asked.grain,
  });
  const type = (change: Partial<Typing>): void => setTyped((last) => ({ ...last, ...change }));
  const read = readBlank(typed, unit);
  const blank: Blank | null = 'blank' in read ? read.blank : null;
  const problems = 'problems' in read ? read.problems : {};
  const name = typed.name.trim();
  const started = Boolean(typed.width.trim() || typed.height.trim());
  const note = `Cut from ${nameOf(fields)}.`;
  return (
    <>
      <TextField
        label={enters ? 'Name of the part' : 'What it is'}
        value={typed.name}
        onInput={(text) => type({ name: text })}
      />
      <div class="side-by-side">
        {(['width', 'height'] as const).map((side) => (
          <Typed
            key={side}
            label={side === 'width' ? 'First side' : 'Second side'}
            name={side}
            value={typed[side]}
            onInput={(text) => type({ [side]: text })}
            problem={started ? problems[side] : undefined}
          />
        ))}
      </div>
      <Typed
        label="How many"
        name="count"
        hint="In one row, a cut apart. Empty means one."
        value={typed.count}
        onInput={(count) => type({ count })}
        problem={problems.count}
        last
      />
      <Choices
        legend="Its grain"
        name="grain"
        columns={1}
        choices={GRAINS}
        value={typed.grain}
        onChange={(grain) => type({ grain })}
      />
      {blank ? (
        <WhereToCut
          {...rest}
          fields={fields}
          blank={blank}
          clearance={understand(asked, unit).want.clearance_nm}
          warning=""
          made={{
            name: name || 'a blank',
            part: enters ? part : null,
            problem: enters && !name ? 'Give the part a name.' : '',
            drafts: () => (enters ? partDrafts(part, name, blank.count, note, fields, steps) : []),
            asks: enters && <TemplateField steps={steps} onChange={setSteps} />,
            records: enters && <li>A new part, {name || 'without a name yet'}.</li>,
          }}
        />
      ) : (
        <p>Type both sides of the blank, and the cut is drawn here.</p>
      )}
    </>
  );
}
