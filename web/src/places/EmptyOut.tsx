// Everything that lies in a place goes to another, but for what is ticked or scanned to stay.
import { useState } from 'preact/hooks';
import { Problem } from '../offcuts/Choices.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { later } from '../shell/later.tsx';
import { go } from '../shell/router.ts';
import { find, row } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { grouped } from '../twins/tagcode.ts';
import { move, whyItFailed } from './moving.ts';
import { PlacePicker } from './PlacePicker.tsx';
import type { SheetProps } from './PlaceScreen.tsx';
import { byName, whyNotInto } from './tree.ts';
import { named, thingsWords } from './words.ts';

const Scanner = later(async () => (await import('../tags/Scanner.tsx')).Scanner, true);

export function EmptyOut({ place, here }: SheetProps) {
  const [stay, setStay] = useState<ReadonlySet<string>>(new Set());
  const [to, setTo] = useState<Row | null>(null);
  const [problem, setProblem] = useState('');
  const going = here.filter((one) => !stay.has(one.id));
  const whyNot = (target: Row): string => {
    if (target.id === place.id) return `They lie in ${place.name} already. Choose another place.`;
    return going.map((one) => whyNotInto(one, target, row)).find(Boolean) ?? '';
  };
  const wrong = to ? whyNot(to) : '';
  const put = async (): Promise<void> => {
    if (!to || wrong || !going.length) return;
    const failed = await whyItFailed(async () => sayKept(await move(going, to)));
    setProblem(failed);
    if (!failed) go(`/place/${to.id}`, true);
  };
  if (!here.length) return <p>Nothing lies in {place.name}.</p>;
  if (!to)
    return (
      <>
        <h2>Where does all of this go?</h2>
        <p>
          In {place.name}: {thingsWords(here)}.
        </p>
        <PlacePicker
          mayAdd
          without={whyNot}
          onPick={(target) => {
            setTo(target);
            scrollTo(0, 0);
          }}
        />
      </>
    );
  return (
    <>
      <p>
        To {to.name}. Untick what stays in {place.name}, or scan its tag.
      </p>
      <Staying here={here} stay={stay} onChange={setStay} place={place} />
      <Problem text={problem || wrong} />
      <button type="button" class="main" disabled={!going.length || wrong !== ''} onClick={put}>
        {going.length ? `Move ${thingsWords(going)} to ${to.name}` : 'Nothing is ticked'}
      </button>
      <button type="button" class="leave" onClick={() => setTo(null)}>
        To another place
      </button>
    </>
  );
}

interface StayProps {
  place: Row;
  here: Row[];
  stay: ReadonlySet<string>;
  onChange: (stay: ReadonlySet<string>) => void;
}

function Staying({ place, here, stay, onChange }: StayProps) {
  const [scans, setScans] = useState(false);
  const [said, setSaid] = useState('');
  const toggle = (id: string): void => {
    const now = new Set(stay);
    if (!now.delete(id)) now.add(id);
    onChange(now);
  };
  const read = (code: string): void => {
    const found = find(code);
    const thing = found.is === 'thing' ? here.find((one) => one.id === found.row.id) : undefined;
    if (thing) onChange(new Set(stay).add(thing.id));
    setSaid(
      thing
        ? `${named(thing)} stays in ${place.name}.`
        : `${grouped(code)} is on nothing that lies in ${place.name}.`,
    );
  };
  return (
    <>
      {scans && <Scanner prompt="What stays: scan its tag." onRead={read} />}
      <p class="note" role="status" hidden={!said}>
        {said}
      </p>
      <button type="button" class="leave" onClick={() => setScans(!scans)}>
        {scans ? 'Enough scanned' : 'Scan what stays'}
      </button>
      <ul class="plain stays">
        {[...here].sort(byName).map((one) => (
          <li key={one.id}>
            <label>
              <input type="checkbox" checked={!stay.has(one.id)} onChange={() => toggle(one.id)} />
              <span>
                <b>{named(one)}</b> {typeof one.fields.number === 'string' && one.fields.number}
              </span>
            </label>
          </li>
        ))}
      </ul>
    </>
  );
}
