// The shape of an offcut that was entered: its drawing, and its sizes in words.
import { openedPhone } from '../../shell/state.ts';
import type { Unit } from '../../twins/lengths.ts';
import { withUnit } from '../name.ts';
import { distance, sidesOf } from '../outline/exact.ts';
import type { SideText } from '../outline/reading.ts';
import { areaUm2 } from '../outline/rings.ts';
import type { OutlineShape } from '../outline/texts.ts';
import { outlineWords, sizeInOther, sizeWords, unitOf } from '../outline/told.ts';
import { type Fields, grainWords, inBoth } from '../piece.ts';
import { ShapeDrawing } from '../ShapeDrawing.tsx';
import { SheetDrawing } from '../SheetDrawing.tsx';
import type { Offcut } from '../wanted.ts';
import { areaText, measuredText } from '../words.ts';
import { grainAngle } from './grain.ts';

interface Props {
  shape: NonNullable<Fields['shape']>;
  grain: Offcut['grain'];
}
/** More sides than this are not dimensioned one by one. */
const MOST_DIMENSIONED = 14;

export function KnownShape({ shape, grain }: Props) {
  if (shape.kind === 'outline') {
    const unit = unitOf(shape) ?? openedPhone().identity.unit;
    const words = `${sizeWords(shape, unit)}, ${outlineWords(shape)}, ${grainWords({ grain, shape })}`;
    return (
      <ShapeDrawing
        sheet={shape.outer}
        open={false}
        keeps={shape.holes}
        texts={sideTexts(shape, unit)}
        faults={[]}
        grain={grainAngle(grain, '')}
        {...{ unit, words }}
      />
    );
  }
  return (
    <SheetDrawing
      a={{ nm: shape.a.nm, text: withUnit(shape.a) }}
      b={{ nm: shape.b.nm, text: withUnit(shape.b) }}
      grain={grain}
      words={`${inBoth(shape.a)} by ${inBoth(shape.b)}, ${grainWords({ grain, shape })}`}
    />
  );
}

function sideTexts({ outer }: OutlineShape, unit: Unit): SideText[] {
  if (outer.length > MOST_DIMENSIONED) return [];
  return sidesOf(outer).map((side) => ({
    side,
    text: measuredText(distance(...side), unit, false),
  }));
}

export function ShapeWords({ shape, grain }: Props) {
  const { unit } = openedPhone().identity;
  const grained = grainWords({ grain, shape });
  if (shape.kind !== 'outline')
    return (
      <p>
        {inBoth(shape.a)} by {inBoth(shape.b)}, {grained}.
      </p>
    );
  const turned = shape.entered.texts.grain && grain === 'a';
  return (
    <p>
      {sizeWords(shape, unitOf(shape) ?? unit)} ({sizeInOther(shape, unit)}), {outlineWords(shape)},{' '}
      {areaText(areaUm2(shape), unit)} of metal, {grained}.
      {turned && ' It is drawn with its grain along the bottom.'}
    </p>
  );
}
