// The devices of the workshop, taking one out, and letting another one in.
import { useCallback, useEffect, useState } from 'preact/hooks';
import { moment } from '../parts/dates.ts';
import { ask } from '../shell/feedback.tsx';
import { ago } from './ages.ts';
import { PairAnother } from './PairAnother.tsx';
import { useNow } from './useNow.ts';
import { type Device, devices, removeDevice } from './workshopwire.ts';

type State =
  | { is: 'loading' }
  | { is: 'here'; all: Device[]; ahead: number } // `ahead`: the computer's clock minus this one, ms
  | { is: 'trouble'; sentence: string };

function useDevices(): { state: State; again: () => Promise<Device[]> } {
  const [state, setState] = useState<State>({ is: 'loading' });
  const again = useCallback(async (): Promise<Device[]> => {
    try {
      const { devices: all, now } = await devices();
      setState({ is: 'here', all, ahead: now - Date.now() });
      return all;
    } catch (problem) {
      const sentence = problem instanceof Error ? problem.message : String(problem);
      setState({ is: 'trouble', sentence });
      return [];
    }
  }, []);
  useEffect(() => void again(), [again]);
  return { state, again };
}

async function remove(device: Device): Promise<boolean> {
  const answer = await ask(
    `Remove ${device.name}?`,
    'It can neither send nor fetch from now on. What it has recorded stays in the record. What it ' +
      'has not sent stays on it, and can be sent when it is paired again, or saved there as a file.',
    [
      { label: `Remove ${device.name}`, answer: 'remove', main: true },
      { label: 'Keep it', answer: '' },
    ],
  );
  if (answer !== 'remove') return false;
  await removeDevice(device.id);
  return true;
}

export function Devices() {
  const { state, again } = useDevices();
  const [problem, setProblem] = useState('');
  const take = async (device: Device): Promise<void> => {
    setProblem('');
    try {
      if (await remove(device)) await again();
    } catch (failed) {
      const why = failed instanceof Error ? failed.message : String(failed);
      setProblem(`${why} ${device.name} was not removed.`);
    }
  };
  return (
    <section aria-labelledby="devices">
      <h2 id="devices">Devices</h2>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {state.is === 'loading' && <p role="status">Asking the workshop computer …</p>}
      {state.is === 'trouble' && (
        <>
          <p class="note" role="status">
            {state.sentence} The list of devices is kept there.
          </p>
          <button type="button" onClick={again}>
            Ask again
          </button>
        </>
      )}
      {state.is === 'here' && (
        <>
          <List {...state} take={take} />
          <PairAnother all={state.all} again={again} />
        </>
      )}
    </section>
  );
}

function List(props: { all: Device[]; ahead: number; take: (device: Device) => void }) {
  const now = useNow(10_000) + props.ahead;
  const paired = props.all.filter((device) => device.revoked_at === null);
  const removed = props.all.filter((device) => device.revoked_at !== null);
  return (
    <>
      <ul class="plain devices">
        {paired.map((device) => (
          <li key={device.id}>
            <div>
              <strong>{device.name}</strong>
              <small>{describe(device, now)}</small>
            </div>
            {!device.this && (
              <button
                type="button"
                onClick={() => props.take(device)}
                aria-label={`Remove ${device.name}`}
              >
                Remove
              </button>
            )}
          </li>
        ))}
      </ul>
      {removed.length > 0 && (
        <details class="more">
          <summary>Removed devices</summary>
          <ul class="plain devices">
            {removed.map((device) => (
              <li key={device.id}>
                <div>
                  {device.name}
                  <small>
                    {device.person}; removed {moment(device.revoked_at ?? 0, now)}
                  </small>
                </div>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function describe(device: Device, now: number): string {
  const seen = device.this ? 'this device' : `seen ${ago(device.last_seen, now)}`;
  return `${device.person}; ${seen}; joined ${moment(device.paired_at, now)}`;
}
