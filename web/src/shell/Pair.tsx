// The first screen of a browser that does not belong to the workshop yet, or not any more.
import { useEffect, useRef, useState } from 'preact/hooks';
import { isInstalled, isIphone } from './installed.ts';
import './pair.css';
import { later } from './later.tsx';
import { codeInLink, join } from './pairing.ts';
import { follow, go, path } from './router.ts';
import { needsPairing, pairAgain, people, phone } from './state.ts';

const PairScan = later(async () => (await import('./PairScan.tsx')).PairScan, true);

export function Pair({ code }: { code: string }) {
  document.title = 'Join the workshop - Bucktail';
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: links inside are reached by keyboard; this only spares a reload
    <main class="pair" onClick={follow}>
      <h1>Join the workshop</h1>
      {isIphone() && !isInstalled() && <InstallFirst />}
      {!needsPairing.value && <Belongs />}
      <Form code={code} key={code} />
    </main>
  );
}

function InstallFirst() {
  return (
    <div class="note">
      <p>
        <strong>On an iPhone or iPad, install Bucktail first.</strong> The installed app and the
        browser keep their things apart, and what lies in the browser is cleared when it is not
        opened for a week.
      </p>
      <ol>
        <li>Tap Share, then Add to Home Screen.</li>
        <li>Open Bucktail from its icon and join there.</li>
      </ol>
    </div>
  );
}

// The browser has a workshop already: it may be asked to pair again, or be here by mistake.
function Belongs() {
  const identity = phone.value?.identity;
  if (!identity) return null;
  return pairAgain.value ? (
    <p class="note">
      The workshop computer does not know this device any more. Everything recorded here is kept,
      and is sent once it has joined again.
    </p>
  ) : (
    <div class="note">
      <p>
        This device belongs to “{identity.name}” already. Joining again changes only who uses it and
        what it is called; what is recorded here stays.
      </p>
      <a class="button" href="/">
        Go on without joining
      </a>
    </div>
  );
}

function Form({ code }: { code: string }) {
  const identity = phone.value?.identity;
  const [answer, setAnswer] = useState(code);
  const [read, setRead] = useState(code !== ''); // out of a link or a symbol, not typed
  const [person, setPerson] = useState(
    (identity && (people.value[identity.person] ?? identity.person_name)) ?? '',
  );
  const [device, setDevice] = useState(identity?.device_name ?? 'bench phone');
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const [scanning, setScanning] = useState(false);
  const name = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (code) name.current?.focus();
  }, [code]);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setBusy(true);
    setProblem('');
    try {
      await join({ code: answer, person, device });
      if (path.value === '/pair') go('/', true);
    } catch (failed) {
      setProblem(failed instanceof Error ? failed.message : String(failed));
    }
    setBusy(false);
  };
  const scanned = (text: string): boolean => {
    const found = codeInLink(text);
    if (!found) return false;
    setAnswer(found);
    setRead(true);
    setScanning(false);
    setTimeout(() => name.current?.focus()); // once it is drawn again
    return true;
  };
  const another = (): void => {
    setAnswer('');
    setRead(false);
  };
  if (scanning) return <PairScan onText={scanned} close={() => setScanning(false)} />;
  return (
    <form onSubmit={submit}>
      {read ? (
        <div class="note read">
          <p>The pairing code has been read.</p>
          <button type="button" onClick={another}>
            Another code
          </button>
        </div>
      ) : (
        <CodeField value={answer} change={setAnswer} scan={() => setScanning(true)} />
      )}
      <label>
        Your name
        <small>The record shows who did what.</small>
        <input
          ref={name}
          required
          value={person}
          autocomplete="name"
          maxLength={60}
          onInput={(event) => setPerson(event.currentTarget.value)}
        />
      </label>
      <label>
        Name of this device
        <input
          required
          value={device}
          maxLength={60}
          onInput={(event) => setDevice(event.currentTarget.value)}
        />
      </label>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <button class="main" type="submit" disabled={busy}>
        {busy ? 'Joining …' : 'Join'}
      </button>
    </form>
  );
}

interface CodeFieldProps {
  value: string;
  change: (text: string) => void;
  scan: () => void;
}

function CodeField({ value, change, scan }: CodeFieldProps) {
  return (
    <>
      <p>
        The workshop computer shows a pairing code, and so does any device that has joined: under
        “workshop”, “Pair another device”.
      </p>
      <button type="button" class="main" onClick={scan}>
        Scan the pairing code
      </button>
      <label>
        Pairing code
        <small>or type the eight letters and digits below it</small>
        <input
          class="code"
          required
          value={value}
          autocomplete="off"
          autocapitalize="characters"
          spellcheck={false}
          onInput={(event) => change(event.currentTarget.value)}
        />
      </label>
    </>
  );
}
