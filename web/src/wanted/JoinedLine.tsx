// A rivet line that a made piece joins: where in its stack, at which holes, and its new rivets.
import { useEffect, useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { LayerChanges } from '../parts/LayerChanges.tsx';
import {
  segmentsAlong,
  stackTouched,
  type Touched,
  withLayer,
  wrongWithLayer,
} from '../parts/layering.ts';
import { lineOf, TREAT_WORDS, type Treat } from '../parts/lines.ts';
import { type Segment, segmentsOf, wrongWithSegments } from '../parts/segments.ts';
import { TouchedFields } from '../parts/TouchedFields.tsx';
import { WhereFields } from '../parts/WhereFields.tsx';
import { dashFor } from '../reckoner/linerivet.ts';
import { row, useCard } from '../shell/things.ts';
import type { Card } from '../store/phone.ts';
import { inPlace, layerOf } from './made.ts';
import type { Piece } from './wish.ts';

export interface Joining {
  after: Segment[] | null; // null where nothing of this line is recorded
  problem: string;
  dimpled: boolean;
}
interface Props {
  wanted: string; // id of the piece
  line: string;
  part: string;
  piece: Piece;
  name: string;
  onChange: (joining: Joining) => void;
}

const NOT_JOINED: Joining = { after: null, problem: '', dimpled: false };

export function JoinedLine(props: Props) {
  const card = useCard(props.line);
  if (card === undefined) return null;
  const kind = card?.state.sort === 'line' ? lineOf(card.state).fastener.kind : '';
  if (card && !card.state.retired) {
    const there = inPlace(segmentsOf(card.state), props.wanted, props.part);
    if (there) return <There {...props} after={there} />;
    if (kind === 'rivet') return <Joins {...props} card={card} />;
  }
  const name = row(props.line)?.name;
  const why = card?.state.retired
    ? 'was taken out'
    : name
      ? `is fastened by ${kind}s`
      : 'is not on this phone';
  return (
    <p class="note">
      The line {name ?? 'it is for'} {why}: nothing of it is recorded here.
      {kind !== '' && ' Put the piece among its layers on its own screen.'}
    </p>
  );
}

// the line was told of it before it was made
function There({ line, part, after, onChange }: Props & { after: Segment[] }) {
  const own = after.flatMap(({ layers }) => layers.filter((one) => one.part === part));
  const dimpled = own.some(({ treat }) => treat === 'dimple');
  useEffect(() => onChange({ after, problem: '', dimpled }), [JSON.stringify(after)]);
  return (
    <p class="note">
      {row(line)?.name} has it among its layers already, as a piece wanted: the new part takes that
      place.
    </p>
  );
}

function Joins(props: Props & { card: Card }) {
  const { name } = lineOf(props.card.state);
  const [joins, setJoins] = useState(true);
  const toggle = (): void => {
    if (joins) props.onChange(NOT_JOINED);
    setJoins(!joins);
  };
  return (
    <section>
      <h3>In the line {name}</h3>
      <label class="tick">
        <input type="checkbox" checked={joins} onChange={toggle} />
        It becomes a layer of this line
      </label>
      {joins && <Joined {...props} />}
    </section>
  );
}

function Joined({ card, line: id, part, piece, name, onChange }: Props & { card: Card }) {
  const line = lineOf(card.state);
  const before = segmentsAlong(line, card.state, dashFor(line));
  const [touched, setTouched] = useState<Touched[]>(() => firstTouched(before, piece));
  const [under, setUnder] = useState(1);
  const [treat, setTreat] = useState<Treat>(layerOf(part, piece, line.layers).treat);
  const layer = { ...layerOf(part, piece, line.layers), treat };
  const over = `over ${name}`.slice(0, 200);
  const wrong = wrongWithLayer(before, touched, part);
  const after = wrong ? null : withLayer(before, touched, { layer, under }, dashFor(line), over);
  const problem = wrong || (after ? wrongWithSegments(line, after) : '');
  const joining = { after: problem ? null : after, problem, dimpled: treat === 'dimple' };
  useEffect(() => onChange(joining), [JSON.stringify(joining)]);
  return (
    <>
      {line.head === 'flush' && (
        <Choices
          legend="Its holes"
          name={`treat ${id}`}
          columns={3}
          value={treat}
          onChange={setTreat}
          choices={(Object.keys(TREAT_WORDS) as Treat[]).map((value) => ({
            value,
            label: TREAT_WORDS[value],
          }))}
        />
      )}
      <WhereFields
        name={`under ${id}`}
        layers={stackTouched(before, touched)}
        under={under}
        onChange={setUnder}
      />
      <TouchedFields segments={before} touched={touched} onChange={setTouched} />
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {joining.after && (
        <LayerChanges
          after={joining.after}
          before={before}
          layer={layer}
          head={line.head}
          nameOf={(one) => (one === part ? name : (row(one)?.name ?? 'a part not on this phone'))}
        />
      )}
    </>
  );
}

/** As many holes as the piece has, of the first stretch that has more; else all of the first. */
function firstTouched(segments: readonly Segment[], { holes }: Piece): Touched[] {
  const [first] = segments;
  const fewer = holes != null && holes > 0 && first?.count != null && holes < first.count;
  return [{ at: 0, holes: fewer ? holes : null }];
}
