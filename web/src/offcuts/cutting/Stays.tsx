// One way to cut, drawn; what is decided about each piece that stays; and the one save of it all.
import { useState } from 'preact/hooks';
import { ask } from '../../shell/feedback.tsx';
import { go } from '../../shell/router.ts';
import { openedPhone } from '../../shell/state.ts';
import { useKeeping } from '../../shell/useKeeping.ts';
import { newId } from '../../store/ids.ts';
import { liveTags, type On } from '../../tags/attaching.ts';
import { showLength } from '../../twins/lengths.ts';
import { Problem } from '../Choices.tsx';
import { areaText } from '../words.ts';
import { CutDrawing } from './CutDrawing.tsx';
import type { SheetProps } from './CutSheet.tsx';
import {
  type Choosing,
  chose,
  firstChoice,
  type ReadRemnant,
  readRemnant,
  type Tagged,
} from './choosing.ts';
import { metalOf, sizeWords, type WayToCut } from './leaves.ts';
import { PlaceOfRest } from './PlaceOfRest.tsx';
import { RemnantFields } from './RemnantFields.tsx';
import { type CutAct, cutDrafts } from './recording.ts';
import type { Region } from './rings.ts';
import type { Made } from './WhereToCut.tsx';

interface Props extends SheetProps {
  way: WayToCut;
  kerf: number;
  warning: string;
  made: Made;
}

export function Stays({ id, card, fields, way, kerf, warning, made }: Props) {
  const { unit } = openedPhone().identity;
  const tag = tagOn(card.state.tags.length ? liveTags(card.state) : []);
  const sheet = metalOf(fields.shape) as Region;
  const [all, setAll] = useState<Choosing>(() => firstChoice(way.remnants, tag));
  const [place, setPlace] = useState(card.state.place ?? '');
  const [tried, setTried] = useState(false);
  const { problem, keep } = useKeeping();
  const read = way.remnants.map((one) =>
    readRemnant(one, all[one.key] as Choosing[string], tag, sheet, unit),
  );
  const kept = read.filter((_, at) => all[way.remnants[at]?.key ?? '']?.stays);
  const wrong = made.problem || read.some((one) => one.problem) || sameTagTwice(read);
  const save = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (event.target !== event.currentTarget) return; // the line in which a tag is typed
    setTried(true);
    if (wrong || !(await allTheSame(warning))) return;
    const act: CutAct = {
      offcut: id,
      fields,
      made: way.lying.blanks.map((outline) => ({ part: made.part, name: made.name, outline })),
      keeps: kept.map(({ shape, tag: code }) => ({ id: newId(), shape, tag: code })),
      place,
      kerf,
      dust: way.dust,
      recycled: read.reduce((sum, { lost }) => sum + lost, 0),
      length: false,
      also: made.drafts(),
    };
    if (await keep(cutDrafts(act), `Cut: ${made.name}`)) go(`/offcut/${id}`, true);
  };
  const recycled = way.remnants.filter(({ key }) => !all[key]?.stays).map(({ key }) => key);
  const drawn = { sheet, blanks: way.lying.blanks, cuts: way.cuts, remnants: way.remnants };
  return (
    <form onSubmit={save} noValidate>
      <CutDrawing
        cut={{ ...drawn, recycled, grain: fields.grain ?? 'unknown', unit }}
        words={`${made.name} cut from the offcut.`}
      />
      <h2>What stays</h2>
      {!way.remnants.length && <p>Nothing: the piece takes all of it.</p>}
      <ul class="stays-list">
        {way.remnants.map((one, at) => (
          <RemnantFields
            key={one.key}
            remnant={one}
            chosen={all[one.key] as Choosing[string]}
            tag={tag}
            problem={tried ? (read[at]?.problem ?? '') : ''}
            onChange={(change) => setAll((last) => chose(last, one.key, change))}
          />
        ))}
      </ul>
      {kept.length > 0 && <PlaceOfRest value={place} onChange={setPlace} />}
      {made.asks && (
        <section>
          <h2>The part</h2>
          {made.asks}
        </section>
      )}
      <section aria-live="polite">
        <h3>What is recorded</h3>
        <ul>
          <li>{cutWords(way, made.name)}</li>
          {made.records}
          {way.remnants.map(({ key, region }) => (
            <li key={key}>
              {key}, {sizeWords(region, unit)}:{' '}
              {all[key]?.stays ? 'stays, as an offcut' : 'recycled'}.
            </li>
          ))}
          {way.dust > 0 && (
            <li>
              Lost to the cuts, {showLength(kerf, unit)} wide: {areaText(way.dust, unit)}.
            </li>
          )}
        </ul>
      </section>
      {warning && <p class="note">{warning}</p>}
      <Problem text={tried ? [made.problem, sameTagTwice(read)].filter(Boolean).join(' ') : ''} />
      <Problem text={problem} />
      <button type="submit" class="main">
        {saveWords(kept.length)}
      </button>
    </form>
  );
}

export function saveWords(kept: number): string {
  if (kept === 0) return 'It is cut; nothing is kept';
  return kept === 1 ? 'It is cut; one piece is kept' : `It is cut; ${kept} pieces are kept`;
}

function cutWords({ lying: { blanks } }: WayToCut, name: string): string {
  return blanks.length > 1 ? `Cut into ${blanks.length} × ${name}.` : `Cut into ${name}.`;
}

const tagOn = (tags: { code: string; on: string }[]): Tagged | null => {
  const [first] = tags;
  return first ? { code: first.code, on: first.on as On } : null;
};

function sameTagTwice(read: readonly { tag: ReadRemnant['tag'] }[]): string {
  const codes = read.flatMap(({ tag }) => tag?.code ?? []);
  return new Set(codes).size < codes.length ? 'One tag cannot be on two pieces. Scan another.' : '';
}

/** Another metal or thickness than the piece asks for stops before anything is recorded. */
export async function allTheSame(warning: string): Promise<boolean> {
  if (!warning) return true;
  const text = `${warning} Only approved data can say that another metal will do.`;
  const said = await ask('Not what the piece asks for', text, [
    { label: 'Do not cut it from this', answer: '', main: true },
    { label: 'It is cut all the same', answer: 'yes' },
  ]);
  return said === 'yes';
}
