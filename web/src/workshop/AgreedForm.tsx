// What all devices of the workshop agree on: its name, and the unit of a bare number.
import { useState } from 'preact/hooks';
import { openedPhone, sync } from '../shell/state.ts';
import { OutOfReach } from '../sync/wire.ts';
import { Choice } from './Choice.tsx';
import { agree } from './workshopwire.ts';

const UNITS: ['in' | 'mm', string][] = [
  ['in', 'Inches'],
  ['mm', 'Millimetres'],
];

export function AgreedForm() {
  const { identity } = openedPhone();
  const [name, setName] = useState(identity.name);
  const [unit, setUnit] = useState(identity.unit);
  const [said, setSaid] = useState('');
  const [problem, setProblem] = useState('');
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setSaid('');
    setProblem('');
    try {
      const now = await agree({ name, unit });
      await openedPhone().agree(now.name, now.unit, now.sawing);
      setName(now.name);
      setSaid('Changed for every device.');
      void sync();
    } catch (failed) {
      const why = failed instanceof Error ? failed.message : String(failed);
      const more =
        ' All devices agree on this, so it is changed within reach of it. Nothing changed.';
      setProblem(why + (failed instanceof OutOfReach ? more : ''));
    }
  };
  return (
    <section aria-labelledby="agreed">
      <h2 id="agreed">For every device</h2>
      <form onSubmit={submit}>
        <label>
          Name of the workshop
          <input
            value={name}
            required
            maxLength={60}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        <Choice
          legend="A number typed without a unit is in"
          options={UNITS}
          chosen={unit}
          choose={setUnit}
        />
        {problem && (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
        <button type="submit">Change for every device</button>
        <output class="outcome">{said}</output>
      </form>
    </section>
  );
}
