// A rivet line that a made piece joins: where in its stack, at which holes, and its new segments.
import { useEffect, useState } from 'preact/hooks';
import { segmentsAlong, type Touched, withLayer, wrongWithLayer } from '../parts/layering.ts';
import { type LineLayer, lineOf } from '../parts/lines.ts';
import { type Segment, wrongWithSegments } from '../parts/segments.ts';
import { TouchedFields } from '../parts/TouchedFields.tsx';
import { WhereFields } from '../parts/WhereFields.tsx';
import { dashFor } from '../reckoner/linerivet.ts';
import { useCard } from '../shell/things.ts';
import type { Card } from '../store/phone.ts';

export interface Joining {
  after: Segment[] | null;
  problem: string;
}
interface Props {
  line: string;
  layer: LineLayer;
  holes: number | null;
  name: string;
  onChange: (joining: Joining) => void;
}

export function JoinedLine(props: Props) {
  const card = useCard(props.line);
  if (card?.state.sort !== 'line') return null;
  return <Known {...props} card={card} />;
}

function Known({ card, layer, holes, name, onChange }: Props & { card: Card }) {
  const line = lineOf(card.state);
  const before = segmentsAlong(line, card.state, dashFor(line));
  const fewer = holes !== null && before[0]?.count != null && holes < before[0].count;
  const [touched, setTouched] = useState<Touched[]>([{ at: 0, holes: fewer ? holes : null }]);
  const [under, setUnder] = useState(1);
  const wrong = wrongWithLayer(before, touched, layer.part);
  const after = wrong ? null : withLayer(before, touched, { layer, under }, dashFor(line), name);
  const problem = wrong || (after ? wrongWithSegments(line, after) : '');
  const key = JSON.stringify([after, problem]);
  useEffect(() => onChange({ after: problem ? null : after, problem }), [key]);
  return (
    <section>
      <h3>In the line {line.name}</h3>
      <WhereFields layers={before[0]?.layers ?? []} under={under} onChange={setUnder} />
      <TouchedFields segments={before} touched={touched} onChange={setTouched} />
    </section>
  );
}
