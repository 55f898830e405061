// Where a piece came from: what is left of a cut offcut, and a part that was cut from one; with what
// has to be measured again because two phones cut the same metal.
import { moment } from '../../parts/dates.ts';
import { row, rows } from '../../shell/things.ts';
import { useKeeping } from '../../shell/useKeeping.ts';
import type { Card } from '../../store/phone.ts';
import type { Row } from '../../store/rows.ts';
import type { Body } from '../../twins/facts.ts';
import { Problem } from '../Choices.tsx';
import { cutDoubt, cutsOf, DOUBT_WORDS, madeFrom } from './doubt.ts';
import './cutting.css';

export function LeftOf({ id, card }: { id: string; card: Card }) {
  const { problem, keep } = useKeeping();
  const mine = row(id);
  const whole = row(card.state.parent as string | undefined);
  if (!mine || !whole) return null;
  const cut = cutsOf(whole).find(({ remnants }) => remnants.includes(id));
  const doubt = cutDoubt(mine, row);
  const measured = async (): Promise<void> => {
    const body = { shape: card.state.shape } as unknown as Body;
    await keep([{ kind: 'offcut.described.v1', subject: id, body }], 'Measured again');
  };
  return (
    <div class={doubt ? 'note was-cut' : 'was-cut'}>
      <p>
        Left of <a href={`/offcut/${whole.id}`}>{whole.name}</a>
        {cut && `, cut on ${moment(cut.at)}`}.
      </p>
      {doubt && !cutsOf(mine).length && (
        <>
          <p>{DOUBT_WORDS[doubt]}</p>
          <Problem text={problem} />
          <button type="button" onClick={measured}>
            It is there, and measures as it says here
          </button>
        </>
      )}
    </div>
  );
}

/** On the screen of a part: the offcut that it was cut from. */
export function CutFrom({ part }: { part: string }) {
  const found = madeFrom(part, rows('offcut', true));
  if (!found) return null;
  const { offcut, cut } = found;
  const doubt = ownDoubt(offcut);
  return (
    <div class={doubt ? 'note was-cut' : 'was-cut'}>
      <p>
        Cut from <a href={`/offcut/${offcut.id}`}>{offcut.name}</a> on {moment(cut.at)}.
      </p>
      {doubt && <p>{DOUBT_WORDS[doubt]}</p>}
    </div>
  );
}

const ownDoubt = (offcut: Row) =>
  cutDoubt({ ...offcut, fields: { ...offcut.fields, parent: null } }, row);
