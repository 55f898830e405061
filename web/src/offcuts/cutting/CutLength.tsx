// Cutting section stock: pieces of one length sawn from an end, and what is left of it.
import { useState } from 'preact/hooks';
import { TextField } from '../../parts/DescriptionFields.tsx';
import { TemplateField } from '../../parts/NeedsFields.tsx';
import { type Steps, stepsFrom, type Template, templateOf } from '../../parts/steps.ts';
import { go } from '../../shell/router.ts';
import { openedPhone } from '../../shell/state.ts';
import { useKeeping } from '../../shell/useKeeping.ts';
import { newId } from '../../store/ids.ts';
import { liveTags, type On } from '../../tags/attaching.ts';
import { showLength } from '../../twins/lengths.ts';
import { type Choice, Choices, Problem, Typed } from '../Choices.tsx';
import { nameOf } from '../name.ts';
import { allowancesIn } from '../sections/allowances.ts';
import { BarDrawing } from '../sections/BarDrawing.tsx';
import { type LaidOut, layOut, needed } from '../sections/sawing.ts';
import { type Run, type SectionFields, stockOf } from '../sections/section.ts';
import type { SheetProps } from './CutSheet.tsx';
import type { Chosen } from './choosing.ts';
import { length as measureOf } from './leaves.ts';
import { partDrafts, readPieces, type Typing } from './made.ts';
import { PlaceOfRest } from './PlaceOfRest.tsx';
import { TagOf } from './RemnantFields.tsx';
import { type CutAct, cutDrafts } from './recording.ts';
import { saveWords } from './Stays.tsx';

type What = 'part' | 'nothing';
const WHAT: readonly Choice<What>[] = [
  { value: 'part', label: 'A part of its own' },
  { value: 'nothing', label: 'Something that is not entered' },
];
const BLANK: Typing = { name: '', width: '', height: '', length: '', count: '', grain: 'any' };

export function CutLength(props: SheetProps) {
  const { identity } = openedPhone();
  const saw = allowancesIn(identity.unit, identity.sawing);
  const [what, setWhat] = useState<What>('part');
  const [typed, setTyped] = useState<Typing>(BLANK);
  const type = (change: Partial<Typing>): void => setTyped((last) => ({ ...last, ...change }));
  const stock = stockOf(props.fields as SectionFields);
  if (!stock) return <p class="note">Its sides and its length have to be told first.</p>;
  const read = readPieces(typed, identity.unit);
  const problems = 'problems' in read ? read.problems : {};
  const lengths = 'lengths' in read ? read.lengths : [];
  const run = { length_nm: stock.run.length.nm, square_ends: stock.run.square_ends ?? 0 };
  const allowed = { kerf_nm: saw.kerf.nm, dress_off_nm: saw.dress_off.nm };
  const lacks = lengths.length ? needed(lengths, run.square_ends, allowed) - run.length_nm : 0;
  return (
    <>
      <Choices
        legend="What is cut from it?"
        name="what"
        columns={1}
        choices={WHAT}
        value={what}
        onChange={setWhat}
      />
      <TextField
        label={what === 'part' ? 'Name of the part' : 'What it is'}
        value={typed.name}
        onInput={(name) => type({ name })}
      />
      <div class="side-by-side">
        <Typed
          label="Length"
          name="length"
          value={typed.length}
          onInput={(text) => type({ length: text })}
          problem={typed.length.trim() ? problems.length : undefined}
        />
        <Typed
          label="How many"
          name="count"
          value={typed.count}
          onInput={(count) => type({ count })}
          problem={problems.count}
          last
        />
      </div>
      <p class="faint">
        A saw cut takes {showLength(saw.kerf.nm, identity.unit)}, and{' '}
        {showLength(saw.dress_off.nm, identity.unit)} is dressed off each sawn end.
      </p>
      {lacks > 0 && (
        <p class="problem" role="alert">
          With its saw cuts that is {showLength(lacks, identity.unit)} more than there is.
        </p>
      )}
      {lengths.length > 0 && lacks <= 0 && (
        <Laid
          key={`${what} ${lengths.join()}`}
          {...props}
          enters={what === 'part'}
          name={typed.name.trim()}
          lengths={lengths}
          laid={layOut(run, lengths, allowed)}
        />
      )}
    </>
  );
}

interface LaidProps extends SheetProps {
  enters: boolean;
  name: string;
  lengths: number[];
  laid: LaidOut;
}

function Laid({ id, card, fields, enters, name, lengths, laid }: LaidProps) {
  const { identity } = openedPhone();
  const { unit } = identity;
  const saw = allowancesIn(unit, identity.sawing);
  const [part] = useState(newId);
  const [steps, setSteps] = useState<Steps>(() => stepsFrom(templateOf('angle') as Template, null));
  const short = (laid.left?.length_nm ?? 0) < saw.shortest.nm;
  const tag = liveTags(card.state)[0];
  const [chosen, setChosen] = useState<Chosen>({
    stays: laid.left !== null && !short,
    a: '',
    b: '',
    tag: tag && !short ? 'same' : 'none',
    code: '',
    on: null,
  });
  const [place, setPlace] = useState(card.state.place ?? '');
  const [tried, setTried] = useState(false);
  const { problem, keep } = useKeeping();
  const change = (more: Partial<Chosen>): void => setChosen((last) => ({ ...last, ...more }));
  const stays = laid.left !== null && chosen.stays;
  const wrong = wrongIn(enters, name, stays, chosen);
  const save = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (event.target !== event.currentTarget) return; // the line in which a tag is typed
    setTried(true);
    if (wrong) return;
    const called = name || 'a piece';
    const act: CutAct = {
      offcut: id,
      fields,
      made: lengths.map((one) => ({ part: enters ? part : null, name: called, length: one })),
      keeps: stays ? [{ id: newId(), shape: runOf(laid, unit), tag: taken(chosen, tag) }] : [],
      place,
      kerf: saw.kerf.nm,
      ...lostIn(fields, lengths, laid, stays),
      length: true,
      also: enters
        ? partDrafts(part, name, lengths.length, `Cut from ${nameOf(fields)}.`, fields, steps)
        : [],
    };
    if (await keep(cutDrafts(act), `Cut: ${called}`)) go(`/offcut/${id}`, true);
  };
  return (
    <form onSubmit={save} noValidate>
      <BarDrawing
        bar={{ section: null, length: laid.length, laid, letters: [], unit }}
        words={`${lengths.length} of ${showLength(lengths[0] ?? 0, unit)} sawn from it.`}
      />
      <h2>What stays</h2>
      {laid.left ? (
        <>
          <p>{showLength(laid.left.length_nm, unit)}.</p>
          {short && <p>Shorter than what is kept here. Recycle it?</p>}
          <Choices
            legend="What becomes of it?"
            name="stays"
            choices={[
              { value: 'stays', label: 'it stays' },
              { value: 'recycle', label: 'recycle' },
            ]}
            value={chosen.stays ? 'stays' : 'recycle'}
            onChange={(is) => change({ stays: is === 'stays' })}
          />
        </>
      ) : (
        <p>Nothing: the pieces and the saw take all of it.</p>
      )}
      {stays && (
        <>
          <TagOf
            name="what stays"
            chosen={chosen}
            tag={tag ? { code: tag.code, on: tag.on as On } : null}
            onChange={change}
          />
          <PlaceOfRest value={place} onChange={setPlace} />
        </>
      )}
      {enters && (
        <section>
          <h2>The part</h2>
          <TemplateField steps={steps} onChange={setSteps} />
        </section>
      )}
      <Problem text={tried ? wrong : ''} />
      <Problem text={problem} />
      <button type="submit" class="main">
        {saveWords(stays ? 1 : 0)}
      </button>
    </form>
  );
}

function wrongIn(enters: boolean, name: string, stays: boolean, chosen: Chosen): string {
  if (enters && !name) return 'Give the part a name.';
  if (!stays || chosen.tag !== 'new') return '';
  if (!chosen.code) return 'Scan the new tag, or say that it has none yet.';
  return chosen.on ? '' : 'Say how the tag is fixed.';
}

function taken(
  { tag: way, code, on }: Chosen,
  same: { code: string; on: string } | undefined,
): { code: string; on: On } | null {
  if (way === 'same' && same) return { code: same.code, on: same.on as On };
  return way === 'new' && code && on ? { code, on } : null;
}

function runOf({ left }: LaidOut, unit: 'in' | 'mm'): Run {
  const square = left?.square_ends ? { square_ends: left.square_ends } : {};
  return { kind: 'length', length: measureOf(left?.length_nm ?? 0, unit), ...square };
}

/** What became dust (nm), the dressing of ends with it, and what was thrown away. */
function lostIn(
  fields: SheetProps['fields'],
  lengths: readonly number[],
  { left }: LaidOut,
  stays: boolean,
): { dust: number; recycled: number } {
  const whole = stockOf(fields as SectionFields)?.run.length.nm ?? 0;
  const rest = left?.length_nm ?? 0;
  const dust = whole - rest - lengths.reduce((sum, one) => sum + one, 0);
  return { dust, recycled: stays ? 0 : rest };
}
