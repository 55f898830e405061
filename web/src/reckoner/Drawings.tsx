// The drawings that belong to an answer, where there are some.
import type { Unit } from '../twins/lengths.ts';
import type { Answer, Sum } from '../twins/reckon.ts';
import type { Typed } from './address.ts';
import { RULES } from './book.ts';
import { FlatDrawing } from './drawings/FlatDrawing.tsx';
import { HoleDrawing } from './drawings/HoleDrawing.tsx';
import { LayoutDrawing } from './drawings/LayoutDrawing.tsx';
import { StackDrawing } from './drawings/StackDrawing.tsx';
import { drawingsOf, type Shown } from './drawn.ts';

interface Props {
  sum: Sum;
  answer: Answer;
  inputs: Typed;
  unit: Unit;
}

export function Drawings({ sum, answer, inputs, unit }: Props) {
  return (
    <>
      {drawingsOf(RULES, sum, answer, inputs, unit).map((shown) => (
        <One key={shown.is} shown={shown} />
      ))}
    </>
  );
}

function One({ shown }: { shown: Shown }) {
  switch (shown.is) {
    case 'stack':
      return <StackDrawing {...shown.props} />;
    case 'layout':
      return <LayoutDrawing {...shown.props} />;
    case 'flat':
      return <FlatDrawing {...shown.props} />;
    case 'hole':
      return <HoleDrawing {...shown.props} />;
  }
}
