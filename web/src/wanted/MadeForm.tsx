// A wanted piece is made: it becomes a part with its steps, and a layer of every line it touches.
import { useState } from 'preact/hooks';
import { added, NOTHING_KNOWN } from '../parts/changes.ts';
import { TextField } from '../parts/DescriptionFields.tsx';
import { changesOf } from '../parts/layering.ts';
import { TemplateField } from '../parts/NeedsFields.tsx';
import { dashWords } from '../parts/segments.ts';
import { type Steps, stepsFrom, TEMPLATES, templateOf } from '../parts/steps.ts';
import { counted } from '../parts/words.ts';
import { go } from '../shell/router.ts';
import { openedPhone } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { newId } from '../store/ids.ts';
import type { Draft } from '../store/outbox.ts';
import type { Body } from '../twins/facts.ts';
import { JoinedLine, type Joining } from './JoinedLine.tsx';
import { capital, metalWords, type Piece, pieceWords } from './wish.ts';

const SMALL = 'small clip';

export function MadeForm({ id, piece }: { id: string; piece: Piece }) {
  const { unit } = openedPhone().identity;
  const [part] = useState(newId);
  const [name, setName] = useState(piece.name);
  const template = templateOf(SMALL) ?? TEMPLATES[0];
  const [steps, setSteps] = useState<Steps | null>(
    template ? stepsFrom(template, piece.holes ?? null) : null,
  );
  const [lines, setLines] = useState<Record<string, Joining>>({});
  const { problem, keep } = useKeeping();
  const wrong = Object.values(lines).find((one) => one.problem)?.problem ?? '';
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!steps || !name.trim() || wrong) return;
    const drafts = [
      ...added(
        part,
        described(piece, name, unit),
        { ...steps, holes: { ...steps.holes, supplied: 'none' } },
        null,
      ),
      { kind: 'piece.met.v1', subject: id, body: { part } },
      ...Object.entries(lines).flatMap(([line, { after }]): Draft[] =>
        after
          ? [
              {
                kind: 'line.segments.v1',
                subject: line,
                body: { segments: after } as unknown as Body,
              },
            ]
          : [],
      ),
    ];
    if (await keep(drafts, `Made: ${name.trim()}`)) go(`/part/${part}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>It is made</h2>
      <p>{capital(pieceWords(piece, unit))}. It becomes a part of its own.</p>
      <TextField label="Name" value={name} onInput={setName} />
      {steps && <TemplateField steps={steps} onChange={setSteps} />}
      {(piece.lines ?? []).map((line) => (
        <JoinedLine
          key={line}
          line={line}
          layer={{ part, thickness: piece.thickness, treat: 'plain' }}
          holes={piece.holes ?? null}
          name={`over ${name.trim()}`.slice(0, 200)}
          onChange={(joining) => setLines((now) => ({ ...now, [line]: joining }))}
        />
      ))}
      <Recorded name={name} lines={lines} />
      {(problem || wrong) && (
        <p class="problem" role="alert">
          {problem || wrong}
        </p>
      )}
      <div class="ways">
        <button type="submit" class="main" disabled={!name.trim() || !!wrong}>
          {name.trim() ? `Made: ${name.trim()}` : 'Give it a name'}
        </button>
        <a class="button" href={`/wanted/${id}`}>
          Not yet
        </a>
      </div>
    </form>
  );
}

function described(piece: Piece, name: string, unit: 'in' | 'mm') {
  const of = row(piece.for_parts?.[0]);
  const line = row(piece.lines?.[0]);
  const assembly = of?.fields.assembly ?? (line?.fields.line as { assembly?: string })?.assembly;
  const targets = [...(piece.for_parts ?? []), ...(piece.lines ?? [])];
  const names = targets.flatMap((one) => row(one)?.name ?? []);
  return {
    ...NOTHING_KNOWN,
    name,
    assembly: typeof assembly === 'string' ? assembly : '',
    material: metalWords(piece),
    thickness: piece.thickness,
    pieces: piece.count,
    note: `Cut ${pieceWords(piece, unit)}${names.length ? `, for ${names.join(', ')}` : ''}.`,
  };
}

// What one tap will record, before it does.
function Recorded({ name, lines }: { name: string; lines: Record<string, Joining> }) {
  return (
    <section aria-live="polite">
      <h3>What is recorded</h3>
      <ul>
        <li>A new part, {name.trim() || 'without a name yet'}, with its steps to do.</li>
        {Object.entries(lines).flatMap(([line, { after }]) =>
          changesOf(after ?? []).map((one) => (
            <li key={`${line} ${one.name}`}>
              {row(line)?.name}: the rivets of{' '}
              {one.holes === null ? 'its holes' : counted(one.holes, 'hole')} go from{' '}
              <b>
                {dashWords(one.was)} to {dashWords(one.now)}
              </b>
              , and wait to be confirmed.
            </li>
          )),
        )}
      </ul>
    </section>
  );
}
