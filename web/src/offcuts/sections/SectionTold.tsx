// What a length of section stock is: drawn, and in words.
import { openedPhone } from '../../shell/state.ts';
import { withUnit } from '../name.ts';
import { type Fields, inBoth, KNOWN_WORDS, thicknessInBoth } from '../piece.ts';
import { metalName } from '../words.ts';
import { NOTHING, sectionAddress } from './asked.ts';
import { BarDrawing } from './BarDrawing.tsx';
import { barOf } from './SectionResults.tsx';
import {
  endsWords,
  formWords,
  handWords,
  isSectionForm,
  type SectionFields,
  type SectionStock,
  sideNames,
  stockOf,
} from './section.ts';

export function SectionDrawing({ fields }: { fields: Fields }) {
  const stock = stockOf(fields as SectionFields);
  if (!stock) return <p class="problem">Its section or its length is not known. Measure it.</p>;
  const { unit } = openedPhone().identity;
  return (
    <BarDrawing bar={barOf(stock, unit)} reminder={false} words={sidesInBoth(stock).join(', ')} />
  );
}

function sidesInBoth({ form, section, run, wall }: SectionStock): string[] {
  const names = sideNames(form, section.square ?? false);
  const sides = section.sides.map((side, at) => `${names[at]?.toLowerCase()} ${inBoth(side)}`);
  const { length } = run;
  return [
    formWords(form, section.square),
    ...sides,
    `wall ${thicknessInBoth(wall)}`,
    `${inBoth(length)} long`,
  ];
}

export function SectionWords({ fields, reasons }: { fields: Fields; reasons: string[] }) {
  const stock = stockOf(fields as SectionFields);
  const { alloy, temper, measured, known_by, note } = fields;
  const metal = metalName(alloy ?? null, temper ?? null);
  return (
    <>
      <p>
        {metal.charAt(0).toUpperCase() + metal.slice(1)}
        {stock && ` ${sidesInBoth(stock).join(', ')}`}.{' '}
        {measured === 'over film'
          ? 'The wall was measured over film, so it is not confirmed.'
          : 'The wall was measured on bare metal.'}{' '}
        {known_by && `Metal: ${KNOWN_WORDS[known_by]}.`}
      </p>
      {stock && (
        <p>
          {capital(endsWords(stock.run.square_ends ?? 0))}; {handWords(stock.section.hand)}.
        </p>
      )}
      {note && <p>{note}</p>}
      {reasons.length > 0 && (
        <p class="note">
          Not offered for structure: {reasons.join('; ').replace(/: never for structure/g, '')}.
        </p>
      )}
    </>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Where others like it are found; null for sheet. */
export function othersLike(fields: Fields): string | null {
  const { form, section, thickness, alloy, temper } = fields;
  if (!isSectionForm(form)) return null;
  const [first, second] = (section?.sides ?? []).map(withUnit);
  return sectionAddress({
    ...NOTHING,
    form,
    square: section?.square ?? false,
    first: first ?? '',
    second: second ?? '',
    wall: thickness ? withUnit(thickness) : '',
    metal: alloy && temper ? `${alloy}-${temper}` : '',
  });
}
