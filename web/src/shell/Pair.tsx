// The first screen of a browser that does not belong to the workshop yet.
import { useState } from 'preact/hooks';
import { remember, remembered } from '../store/current.ts';
import type { Identity } from '../store/database.ts';
import { newId } from '../store/ids.ts';
import { Phone } from '../store/phone.ts';
import { ask } from '../sync/wire.ts';
import { go } from './router.ts';
import { usePhone } from './state.ts';

// The pairing code of a link, taken out of the address so that it is not kept in the history.
export function codeFromAddress(): string {
  const found = /#pair=([0-9A-Za-z-]+)/.exec(location.hash);
  if (found) history.replaceState(null, '', location.pathname);
  return found?.[1] ?? '';
}

async function pair(answer: string, person: string, device: string): Promise<void> {
  // the same browser keeps its number, so that pairing again does not make it another device
  const id = (await remembered('device')) ?? newId();
  await remember('device', id);
  const told = await ask('/api/pair', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify({ answer, device: id, device_name: device, person_name: person }),
  });
  const identity = (await told.json()) as Identity;
  const { workshop, name, unit } = identity;
  await usePhone(
    await Phone.create({ workshop, name, unit, device: identity.device, person: identity.person }),
  );
  if (location.pathname === '/pair') go('/', true);
}

export function Pair({ code }: { code: string }) {
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    setBusy(true);
    setProblem('');
    try {
      await pair(String(form.get('code')), String(form.get('person')), String(form.get('device')));
    } catch (failed) {
      setProblem(failed instanceof Error ? failed.message : String(failed));
    }
    setBusy(false);
  };
  return (
    <main>
      <h1>Join the workshop</h1>
      <p>
        The workshop computer shows a pairing code. Scan it, or type the eight letters and digits
        below it.
      </p>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <form onSubmit={submit}>
        <label>
          Pairing code
          <input name="code" required value={code} autocomplete="off" autocapitalize="characters" />
        </label>
        <label>
          Your name
          <small>The record shows who did what.</small>
          <input name="person" required autocomplete="name" maxLength={60} />
        </label>
        <label>
          Name of this device
          <input name="device" required value="bench phone" maxLength={60} />
        </label>
        <button class="main" type="submit" disabled={busy}>
          {busy ? 'Joining …' : 'Join'}
        </button>
      </form>
    </main>
  );
}
