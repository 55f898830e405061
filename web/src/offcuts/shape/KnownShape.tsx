// The shape of an offcut that was entered: its drawing, and its sizes in words.
import { openedPhone } from '../../shell/state.ts';
import { withUnit } from '../name.ts';
import { distance, sidesOf } from '../outline/exact.ts';
import type { SideText } from '../outline/reading.ts';
import { areaUm2 } from '../outline/rings.ts';
import type { OutlineShape } from '../outline/texts.ts';
import { outlineWords, sizeWords } from '../outline/told.ts';
import { type Fields, grainWords, inBoth } from '../piece.ts';
import { ShapeDrawing } from '../ShapeDrawing.tsx';
import { SheetDrawing } from '../SheetDrawing.tsx';
import type { Offcut } from '../wanted.ts';
import { areaText, leftOver } from '../words.ts';
import { grainAngle } from './grain.ts';

interface Props {
  shape: NonNullable<Fields['shape']>;
  grain: Offcut['grain'];
}
/** More sides than this are not dimensioned one by one. */
const MOST_DIMENSIONED = 14;

export function KnownShape({ shape, grain }: Props) {
  const { unit } = openedPhone().identity;
  if (shape.kind === 'outline')
    return (
      <ShapeDrawing
        sheet={shape.outer}
        open={false}
        keeps={shape.holes}
        texts={sideTexts(shape)}
        faults={[]}
        grain={grainAngle(grain, '')}
        unit={unit}
        words={`${sizeWords(shape, unit)}, ${outlineWords(shape)}, ${grainWords({ grain, shape })}`}
      />
    );
  return (
    <SheetDrawing
      a={{ nm: shape.a.nm, text: withUnit(shape.a) }}
      b={{ nm: shape.b.nm, text: withUnit(shape.b) }}
      grain={grain}
      words={`${inBoth(shape.a)} by ${inBoth(shape.b)}, ${grainWords({ grain, shape })}`}
    />
  );
}

function sideTexts({ outer }: OutlineShape): SideText[] {
  const { unit } = openedPhone().identity;
  if (outer.length > MOST_DIMENSIONED) return [];
  return sidesOf(outer).map((side) => {
    const length = leftOver(Math.round(distance(...side)) + 50, unit);
    return { side, text: length.replace(/ (in|mm)$/, '') };
  });
}

export function ShapeWords({ shape, grain }: Props) {
  const { unit } = openedPhone().identity;
  const other = unit === 'in' ? 'mm' : 'in';
  const grained = grainWords({ grain, shape });
  if (shape.kind !== 'outline')
    return (
      <p>
        {inBoth(shape.a)} by {inBoth(shape.b)}, {grained}.
      </p>
    );
  const turned = shape.entered.texts.grain && grain === 'a';
  const bounds = { ...shape, entered: { ...shape.entered, texts: {} } };
  return (
    <p>
      {sizeWords(shape, unit)} ({sizeWords(bounds, other)}), {outlineWords(shape)},{' '}
      {areaText(areaUm2(shape), unit)} of metal, {grained}.
      {turned && ' It is drawn with its grain along the bottom.'}
    </p>
  );
}
