// Offcuts as a list, by metal: all of them, or those of the metal and thickness asked for.
import { useState } from 'preact/hooks';
import { sizeOf } from './outline/rings.ts';
import type { OutlineShape } from './outline/texts.ts';
import { nameOfOutline } from './outline/told.ts';
import { doubtWords, whereWords } from './Results.tsx';
import { asTyped, isSectionForm } from './sections/section.ts';
import type { Offcut } from './wanted.ts';
import { isUnknown, metalName } from './words.ts';

const AT_FIRST = 100;

export function OffcutList({ pieces }: { pieces: readonly Offcut[] }) {
  const [all, setAll] = useState(false);
  const ordered = [...pieces].sort(inOrder);
  const shown = all ? ordered : ordered.slice(0, AT_FIRST);
  const groups = new Map<string, Offcut[]>();
  for (const piece of shown) {
    const metal = metalName(piece.alloy, piece.temper, piece.clad);
    groups.set(metal, [...(groups.get(metal) ?? []), piece]);
  }
  return (
    <>
      {[...groups].map(([metal, group]) => (
        <section key={metal}>
          <h2>{metal.charAt(0).toUpperCase() + metal.slice(1)}</h2>
          <ul class="plain">
            {group.map((piece) => (
              <Line key={piece.id} piece={piece} />
            ))}
          </ul>
        </section>
      ))}
      {ordered.length > shown.length && (
        <button type="button" onClick={() => setAll(true)}>
          Show the other {ordered.length - shown.length}
        </button>
      )}
    </>
  );
}

/** By metal, the unknown ones last; then thickness, then the longer side, longest first. */
function inOrder(one: Offcut, other: Offcut): number {
  const metal = (piece: Offcut): string => metalName(piece.alloy, piece.temper, piece.clad);
  return (
    Number(isUnknown(one.alloy)) - Number(isUnknown(other.alloy)) ||
    metal(one).localeCompare(metal(other)) ||
    one.thickness.nm - other.thickness.nm ||
    longest(other) - longest(one) ||
    one.id.localeCompare(other.id)
  );
}

function longest({ shape, section }: Offcut): number {
  if (section) return section.run.length.nm;
  if (shape.kind === 'rectangle') return Math.max(shape.a.nm, shape.b.nm);
  if (shape.kind !== 'outline') return 0;
  const { width, height } = sizeOf(shape.outer);
  return Math.max(width, height);
}

function Line({ piece }: { piece: Offcut }) {
  const { shape, thickness, section } = piece;
  const sides = sidesOf(shape);
  const metal = metalName(piece.alloy, piece.temper, piece.clad);
  const own = piece.name.startsWith(metal) ? '' : `${piece.name}: `;
  return (
    <li>
      <a href={`/offcut/${piece.id}`} class="offcut-line">
        <b>
          {own}
          {section
            ? `${asTyped(section)}, ${section.run.length.text} long`
            : `${thickness.text}, ${sides}`}
        </b>
        <span class="lies">{whereWords(piece)}</span>
        {notes(piece).map((note) => (
          <span key={note}>{note}</span>
        ))}
      </a>
    </li>
  );
}

function sidesOf(shape: Offcut['shape']): string {
  if (shape.kind === 'rectangle') return `${shape.a.text} × ${shape.b.text}`;
  return shape.kind === 'outline' ? nameOfOutline(shape as OutlineShape) : 'shape not known';
}

function notes(piece: Offcut): string[] {
  const found = doubtWords(piece.id);
  if (piece.reserved) found.push(`reserved for ${piece.reserved.text}`);
  if (piece.measured === 'over film') found.push('thickness over film, not confirmed');
  if (piece.known_by === 'unknown') found.push('no mark seen');
  if (piece.grain === 'unknown' && !isSectionForm(piece.form)) found.push('grain not known');
  return found;
}
