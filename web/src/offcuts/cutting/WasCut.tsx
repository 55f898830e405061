// What an offcut was cut into, on its own screen; and the way back where a cut was not made.
import { moment } from '../../parts/dates.ts';
import { personName } from '../../parts/people.ts';
import { listed } from '../../parts/words.ts';
import { ask } from '../../shell/feedback.tsx';
import { openedPhone } from '../../shell/state.ts';
import { row, rows } from '../../shell/things.ts';
import { useKeeping } from '../../shell/useKeeping.ts';
import type { Draft } from '../../store/outbox.ts';
import type { Card } from '../../store/phone.ts';
import type { Cut } from '../../twins/cuts.ts';
import { showLength } from '../../twins/lengths.ts';
import { type JoinedLine, unmade } from '../../wanted/made.ts';
import { Problem } from '../Choices.tsx';
import { nameOf } from '../name.ts';
import type { Fields } from '../piece.ts';
import { areaText } from '../words.ts';
import { CutDrawing } from './CutDrawing.tsx';
import { cutsOf, DOUBT_WORDS, type Doubt } from './doubt.ts';
import { metalOf } from './leaves.ts';
import { type MadePiece, uncut } from './recording.ts';

interface Props {
  id: string;
  card: Card;
}

export function WasCut({ id, card }: Props) {
  const cuts = (card.state.cut ?? []) as Cut[];
  if (!cuts.length) return null;
  const doubts = new Set((card.state.flags ?? []).map(({ flag }) => flag as Doubt));
  return (
    <section class="was-cut" aria-label="How it was cut">
      {[...doubts].map((doubt) => (
        <p class="note" key={doubt}>
          {DOUBT_WORDS[doubt]}
        </p>
      ))}
      {cuts.map((cut) => (
        <OneCut key={cut.event} id={id} card={card} cut={cut} />
      ))}
    </section>
  );
}

interface Told {
  made: MadePiece[];
  dust_um2?: number;
  recycled_um2?: number;
  dust_nm?: number;
  recycled_nm?: number;
}

function OneCut({ id, card, cut }: Props & { cut: Cut }) {
  const { unit } = openedPhone().identity;
  const fields = card.state as unknown as Fields;
  const told = card.facts.find((fact) => fact.id === cut.event)?.body as Told | undefined;
  const sheet = metalOf(fields.shape);
  const blanks = (told?.made ?? []).flatMap(({ outline }) => (outline ? [outline] : []));
  const many = new Map<string, { part: string | null; name: string; count: number }>();
  for (const one of cut.made) {
    const key = `${one.part} ${one.name}`;
    many.set(key, { ...one, count: (many.get(key)?.count ?? 0) + 1 });
  }
  return (
    <>
      <h2>
        Cut on {moment(cut.at)}, {personName(cut.by)}
      </h2>
      <ul>
        {[...many.values()].map(({ part, name, count }) => (
          <li key={`${part} ${name}`}>
            <Named id={part} name={count > 1 ? `${count} × ${name}` : name} />
          </li>
        ))}
        {cut.remnants.map((one) => (
          <li key={one}>
            left: <Named id={one} name="an offcut" />
          </li>
        ))}
        {told && <Lost told={told} unit={unit} />}
      </ul>
      {sheet && blanks.length > 0 && (
        <CutDrawing
          cut={{
            sheet,
            blanks,
            cuts: [],
            remnants: [],
            recycled: [],
            grain: fields.grain ?? 'unknown',
            unit,
          }}
          done={true}
          words={`What was cut from ${nameOf(fields)}.`}
        />
      )}
      <NotMade id={id} cut={cut} name={nameOf(fields)} />
    </>
  );
}

/** A thing by its name on this phone, with the way to its screen. */
function Named({ id, name }: { id: string | null; name: string }) {
  const thing = row(id);
  if (!thing) return <>{name}</>;
  const words = thing.sort === 'offcut' ? thing.name : name;
  const gone = thing.retired ? (cutsOf(thing).length ? ', cut since' : ', no longer there') : '';
  return (
    <>
      <a href={`/${thing.sort}/${thing.id}`}>{words}</a>
      {gone}
    </>
  );
}

function Lost({ told, unit }: { told: Told; unit: 'in' | 'mm' }) {
  const { recycled_um2 = 0, dust_um2 = 0, recycled_nm = 0, dust_nm = 0 } = told;
  return (
    <>
      {recycled_um2 > 0 && <li>recycled: {areaText(recycled_um2, unit)}</li>}
      {recycled_nm > 0 && <li>recycled: {showLength(recycled_nm, unit)}</li>}
      {dust_um2 > 0 && <li>lost to the cuts: {areaText(dust_um2, unit)}</li>}
      {dust_nm > 0 && <li>lost to the saw and the dressed ends: {showLength(dust_nm, unit)}</li>}
    </>
  );
}

function NotMade({ id, cut, name }: { id: string; cut: Cut; name: string }) {
  const { problem, keep } = useKeeping();
  const since = cut.remnants.flatMap((one) =>
    cutsOf(row(one)).length ? (row(one)?.name ?? []) : [],
  );
  const back = async (): Promise<void> => {
    const { drafts, left } = await metBack(cut);
    if (await sure(name, left)) await keep(uncut(id, cut, drafts), `Whole again: ${name}`);
  };
  if (since.length)
    return <p>{listed(since)} was cut since. Take that cut back first to take this one back.</p>;
  return (
    <>
      <Problem text={problem} />
      <button type="button" onClick={back}>
        Undo: this cut was not made
      </button>
    </>
  );
}

/** The pieces wanted that were met by what was made are wanted again, with the rivets as they were. */
async function metBack(cut: Cut): Promise<{ drafts: Draft[]; left: string[] }> {
  const parts = new Set(cut.made.flatMap(({ part }) => part ?? []));
  const all = { drafts: [] as Draft[], left: [] as string[] };
  for (const wanted of rows('wanted')) {
    const met = String(wanted.fields.met ?? '');
    if (!parts.has(met)) continue;
    const lines = (wanted.fields.lines as string[] | undefined) ?? [];
    const { drafts, left } = unmade(wanted.id, met, await joined(lines));
    all.drafts.push(...drafts);
    all.left.push(...left);
  }
  return all;
}

async function joined(lines: readonly string[]): Promise<JoinedLine[]> {
  const found: JoinedLine[] = [];
  for (const id of lines) {
    const card = await openedPhone().card(id);
    if (card) found.push({ id, name: row(id)?.name ?? 'a rivet line', facts: card.facts });
  }
  return found;
}

async function sure(name: string, left: string[]): Promise<boolean> {
  const text = [
    `${name} is whole again, and what was entered with the cut leaves the lists.`,
    ...(left.length
      ? [`Look at ${listed(left)}: more was recorded there since, so its layers stay as they are.`]
      : []),
    'The record stays.',
  ].join(' ');
  const said = await ask('Not cut after all?', text, [
    { label: 'It was not cut', answer: 'yes', main: true },
    { label: 'Leave it as it is', answer: '' },
  ]);
  return said === 'yes';
}
