// A wanted piece becomes a part with its steps, and a layer of every line it touches: what is asked
// of it, wherever it is made. The piece's own screen and the cutting of an offcut use it.
import { useState } from 'preact/hooks';
import { TextField } from '../parts/DescriptionFields.tsx';
import { TemplateField } from '../parts/NeedsFields.tsx';
import type { Segment } from '../parts/segments.ts';
import { type Template, templateOf } from '../parts/steps.ts';
import { row } from '../shell/things.ts';
import { newId } from '../store/ids.ts';
import type { Draft } from '../store/outbox.ts';
import type { Unit } from '../twins/lengths.ts';
import { JoinedLine, type Joining } from './JoinedLine.tsx';
import { madeDrafts, rivetsWords, sortOf, stepsOf, stepsWords } from './made.ts';
import type { Piece } from './wish.ts';

export interface Making {
  part: string; // id of the part to be
  typed: string; // its name, as it stands in the field
  name: string;
  setName: (name: string) => void;
  steps: ReturnType<typeof stepsOf>;
  setSort: (sort: string) => void;
  segments: Record<string, Segment[]>;
  setLine: (line: string, joining: Joining) => void;
  wrong: boolean; // something has to be put right before it is recorded
  drafts: (unit: Unit) => Draft[];
}

export function useMaking(id: string, piece: Piece): Making {
  const [part] = useState(newId);
  const [name, setName] = useState(piece.name);
  const [sort, setSort] = useState(sortOf(piece));
  const [lines, setLines] = useState<Record<string, Joining>>({});
  const all = Object.values(lines);
  const dimpled = all.some((one) => one.dimpled);
  const steps = stepsOf(templateOf(sort) as Template, piece, dimpled);
  const segments = joinedOf(lines);
  const { assembly, names } = forWhat(piece);
  return {
    part,
    typed: name,
    name: name.trim(),
    setName,
    steps,
    setSort,
    segments,
    setLine: (line, joining) => setLines((now) => ({ ...now, [line]: joining })),
    wrong: !name.trim() || all.some((one) => one.problem),
    drafts: (unit) =>
      madeDrafts({ wanted: id, part, name, piece, steps, assembly, for: names, segments }, unit),
  };
}

interface Props {
  id: string; // of the piece wanted
  piece: Piece;
  making: Making;
}

export function MakingFields({ id, piece, making }: Props) {
  return (
    <>
      <TextField label="Name" value={making.typed} onInput={making.setName} />
      <TemplateField steps={making.steps} onChange={({ template }) => making.setSort(template)} />
      {(piece.lines ?? []).map((line) => (
        <JoinedLine
          key={line}
          wanted={id}
          line={line}
          part={making.part}
          piece={piece}
          name={making.name || piece.name}
          onChange={(joining) => making.setLine(line, joining)}
        />
      ))}
    </>
  );
}

/** What comes of it in the record, as lines of a list. */
export function MakingRecords({ piece, making }: Pick<Props, 'piece' | 'making'>) {
  const { name, steps, segments, part } = making;
  return (
    <>
      <li>
        A new part, {name || 'without a name yet'}
        {piece.count > 1 && `, ${piece.count} pieces in one bag`}. To do on it: {stepsWords(steps)}.
      </li>
      {Object.entries(segments).flatMap(([line, after]) =>
        rivetsWords(after, part).map((words) => (
          <li key={`${line} ${words}`}>
            {row(line)?.name}, {words.charAt(0).toLowerCase() + words.slice(1)}. They wait to be
            confirmed.
          </li>
        )),
      )}
    </>
  );
}

function joinedOf(lines: Record<string, Joining>): Record<string, Segment[]> {
  return Object.fromEntries(
    Object.entries(lines).flatMap(([line, { after }]) => (after ? [[line, after]] : [])),
  );
}

// The assembly of the first part or line it is for that has one, and the names of all of them.
function forWhat({ for_parts = [], lines = [] }: Piece): { assembly: string; names: string[] } {
  const known = [...for_parts, ...lines].flatMap((one) => row(one) ?? []);
  const assemblies = known.flatMap(({ fields }): unknown[] => [
    fields.assembly,
    (fields.line as { assembly?: unknown } | undefined)?.assembly,
  ]);
  const found = assemblies.find((one) => typeof one === 'string' && one);
  return { assembly: String(found ?? ''), names: known.map(({ name }) => name) };
}
