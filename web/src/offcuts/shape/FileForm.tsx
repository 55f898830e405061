// An outline that was not typed: out of a drawing file, or left over from a cut.
import { useState } from 'preact/hooks';
import { OutOfReach } from '../../sync/wire.ts';
import type { Unit } from '../../twins/lengths.ts';
import { Choices, Problem } from '../Choices.tsx';
import { outlineWords, sizeWords } from '../outline/told.ts';
import { ShapeDrawing } from '../ShapeDrawing.tsx';
import { type CannotBeUsed, type Chosen, type Read, readDrawing } from './drawingfile.ts';
import type { ShapeProps } from './ShapeQuestion.tsx';

const NONE: Chosen = { unit: '', layer: '' };
const MOST_LISTED = 12;

export function FileForm(props: ShapeProps) {
  const { shape, asked, set } = props;
  const { given } = shape;
  const [file, setFile] = useState<File | null>(null);
  const [chosen, setChosen] = useState<Chosen>(NONE);
  const [found, setFound] = useState<Read | CannotBeUsed | null>(null);
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const take = (read: Read, of: File, at: number): void => {
    const outline = read.outlines[at];
    if (!outline) return;
    const { outer, holes, unit } = outline;
    const texts = { file: of.name.slice(0, 40), ...(unit ? { unit } : {}) };
    set({ given: { region: { outer, holes }, entered: { way: 'dxf', texts } } });
  };
  const look = async (of: File, choice: Chosen): Promise<void> => {
    setFile(of);
    setChosen(choice);
    setProblem('');
    setBusy(true);
    try {
      const answer = await readDrawing(of, choice);
      setFound(answer);
      if (answer.is === 'read') take(answer, of, 0);
      else set({ given: null });
    } catch (reason) {
      if (!(reason instanceof OutOfReach)) throw reason;
      setProblem(reason.message);
    }
    setBusy(false);
  };
  if (given && given.entered.way !== 'dxf')
    return <p>Its outline is as the cut left it. Choose a shape above to measure it again.</p>;
  return (
    <>
      <div class="field" data-wrong={asked.file ? '' : undefined}>
        <label>
          The drawing file
          <small>A DXF with the outline as closed lines. The workshop computer reads it.</small>
          <input
            type="file"
            name="drawing"
            accept=".dxf"
            disabled={busy}
            onChange={({ currentTarget: { files } }) => files?.[0] && look(files[0], NONE)}
          />
        </label>
        <Problem text={problem || asked.file} />
        {busy && <p aria-live="polite">Reading it …</p>}
      </div>
      {file && found && <Answer {...props} {...{ file, found, chosen, look, take }} />}
    </>
  );
}

type AnswerProps = ShapeProps & {
  file: File;
  found: Read | CannotBeUsed;
  chosen: Chosen;
  look: (file: File, chosen: Chosen) => Promise<void>;
  take: (read: Read, file: File, at: number) => void;
};

function Answer(props: AnswerProps) {
  const { file, found, chosen, look } = props;
  return (
    <>
      {found.layers.length > 1 && (
        <Choices
          legend="Its layers"
          hint="Choose the one with the outline, where there are others."
          name="layer"
          choices={['', ...found.layers.slice(0, MOST_LISTED)].map((layer) => ({
            value: layer,
            label: layer || 'all of them',
          }))}
          value={chosen.layer}
          onChange={(layer) => look(file, { ...chosen, layer })}
        />
      )}
      {found.is === 'refused' ? (
        <Refusal {...props} found={found} />
      ) : (
        <Taken {...props} found={found} />
      )}
    </>
  );
}

const UNITS: readonly Unit[] = ['mm', 'in'];

function Refusal({ found, file, chosen, look, unit }: AnswerProps & { found: CannotBeUsed }) {
  const [outer = [], ...others] = found.rings;
  return (
    <>
      <Problem text={found.sentence} />
      {found.word === 'unit' && (
        <div class="beside">
          {UNITS.map((one) => (
            <button type="button" key={one} onClick={() => look(file, { ...chosen, unit: one })}>
              It is in {one === 'in' ? 'inches' : 'millimetres'}
            </button>
          ))}
        </div>
      )}
      <ShapeDrawing
        sheet={outer}
        open={found.word === 'open'}
        keeps={others}
        texts={[]}
        faults={found.faults}
        grain={null}
        unit={unit}
        words={found.sentence}
      />
    </>
  );
}

function Taken({ found, file, shape, take }: AnswerProps & { found: Read }) {
  const at = found.outlines.findIndex(({ outer }) => outer === shape.given?.region.outer);
  return (
    <>
      {found.notes.map((note) => (
        <p class="note" key={note}>
          {note}
        </p>
      ))}
      {found.outlines.length > 1 && (
        <Choices
          legend={`${found.outlines.length} outlines are in it`}
          name="outline"
          columns={1}
          choices={found.outlines.slice(0, MOST_LISTED).map((outline, number) => ({
            value: String(number),
            label: wordsOf(outline),
          }))}
          value={String(Math.max(at, 0))}
          onChange={(number) => take(found, file, Number(number))}
        />
      )}
    </>
  );
}

function wordsOf({ outer, holes, unit }: Read['outlines'][number]): string {
  const shape = {
    kind: 'outline',
    outer,
    holes,
    entered: { way: 'dxf', texts: { unit } },
  } as const;
  return `${sizeWords(shape)}, ${outlineWords(shape)}`;
}
