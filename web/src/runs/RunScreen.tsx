// A run: pick once what is done, then scan one thing after another.
import { useEffect, useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { go } from '../shell/router.ts';
import { row } from '../shell/things.ts';
import { currentRun, type Run, setRun, startRun } from './current.ts';
import { type Plan, planAsked, planTitle, samePlan } from './plan.ts';
import { RunAtWork } from './RunAtWork.tsx';
import { RunSummary } from './RunSummary.tsx';
import { PickPlace, StartRun } from './StartRun.tsx';
import { scansWords } from './words.ts';
import './run.css';

export const placeName = (id: string): string => row(id)?.name ?? 'a place';

export function RunScreen() {
  const now = currentRun();
  const [asked, setAsked] = useState<Plan | null>(() => planAsked(location.search));
  const [puts, setPuts] = useState(location.search === '?put');
  const idle = !now || now.finished || !now.entries.length;
  const start = (plan: Plan): void => {
    startRun(plan);
    setAsked(null);
    setPuts(false);
    go('/run', true);
  };
  useEffect(() => {
    // "one step on many parts" asks for a new pick, not for a run that is over
    if (location.search === '?new' && idle) setRun(null);
    if (!asked) return;
    if (now && !now.finished && samePlan(asked, now.plan)) setAsked(null);
    else if (idle) start(asked);
  }, [asked]);
  if (asked && idle) return null; // for a moment, until it is started
  if (now && asked && !samePlan(asked, now.plan))
    return (
      <Another now={now} asked={asked} onStart={() => start(asked)} onStay={() => setAsked(null)} />
    );
  if (puts) return <PickPlace onPick={(to) => start({ what: 'put', to })} />;
  if (!now) return <StartRun onStart={start} onPut={() => setPuts(true)} />;
  if (now.finished) return <RunSummary run={now} onClose={() => setRun(null)} />;
  return <RunAtWork run={now} />;
}

interface AnotherProps {
  now: Run;
  asked: Plan;
  onStart: () => void;
  onStay: () => void;
}

// What was scanned is kept either way; only its list, to undo it as a whole, ends with the run.
function Another({ now, asked, onStart, onStay }: AnotherProps) {
  const title = planTitle(now.plan, placeName);
  return (
    <Frame title="A run is under way">
      <p>
        {title}: {scansWords(now)} so far. All of it is kept.
      </p>
      <button type="button" class="main" onClick={onStay}>
        Go on: {title}
      </button>
      <button type="button" class="leave" onClick={onStart}>
        Finish it and begin: {planTitle(asked, placeName)}
      </button>
    </Frame>
  );
}
