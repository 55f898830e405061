// A wanted piece is made: it becomes a part with its steps, and a layer of every line it touches.
import { useState } from 'preact/hooks';
import { TextField } from '../parts/DescriptionFields.tsx';
import { TemplateField } from '../parts/NeedsFields.tsx';
import type { Segment } from '../parts/segments.ts';
import { type Template, templateOf } from '../parts/steps.ts';
import { go } from '../shell/router.ts';
import { openedPhone } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { newId } from '../store/ids.ts';
import { JoinedLine, type Joining } from './JoinedLine.tsx';
import { madeDrafts, rivetsWords, sortOf, stepsOf, stepsWords } from './made.ts';
import type { Piece } from './wish.ts';
import { capital, pieceWords, unbroken } from './words.ts';

export function MadeForm({ id, piece }: { id: string; piece: Piece }) {
  const { unit } = openedPhone().identity;
  const [part] = useState(newId);
  const [name, setName] = useState(piece.name);
  const [sort, setSort] = useState(sortOf(piece));
  const [lines, setLines] = useState<Record<string, Joining>>({});
  const { problem, keep } = useKeeping();
  const all = Object.values(lines);
  const dimpled = all.some((one) => one.dimpled);
  const steps = stepsOf(templateOf(sort) as Template, piece, dimpled);
  const wrong = all.some((one) => one.problem);
  const segments = joinedOf(lines);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!name.trim() || wrong) return;
    const { assembly, names } = forWhat(piece);
    const made = { wanted: id, part, name, piece, steps, assembly, for: names, segments };
    const kept = await keep(madeDrafts(made, unit), `Made: ${name.trim()}`);
    if (kept) go(`/part/${part}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>It is made</h2>
      <p>{unbroken(capital(pieceWords(piece, unit)))}. It becomes a part of its own.</p>
      <TextField label="Name" value={name} onInput={setName} />
      <TemplateField steps={steps} onChange={({ template }) => setSort(template)} />
      {(piece.lines ?? []).map((line) => (
        <JoinedLine
          key={line}
          wanted={id}
          line={line}
          part={part}
          piece={piece}
          name={name.trim() || piece.name}
          onChange={(joining) => setLines((now) => ({ ...now, [line]: joining }))}
        />
      ))}
      <section aria-live="polite">
        <h3>What is recorded</h3>
        <ul>
          <li>
            A new part, {name.trim() || 'without a name yet'}
            {piece.count > 1 && `, ${piece.count} pieces in one bag`}. To do on it:{' '}
            {stepsWords(steps)}.
          </li>
          {Object.entries(segments).flatMap(([line, after]) =>
            rivetsWords(after, part).map((words) => (
              <li key={`${line} ${words}`}>
                {row(line)?.name}, {words.charAt(0).toLowerCase() + words.slice(1)}. They wait to be
                confirmed.
              </li>
            )),
          )}
        </ul>
      </section>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <div class="piece-ways">
        <button type="submit" class="main" disabled={!name.trim() || wrong}>
          {name.trim() ? `Made: ${name.trim()}` : 'Give it a name'}
        </button>
        <a class="button" href={`/wanted/${id}`}>
          Not yet
        </a>
      </div>
    </form>
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
