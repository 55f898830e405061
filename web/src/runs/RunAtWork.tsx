// The run at work: the reader, what the last tag came to, and the list with the way back.
import { useRef, useState } from 'preact/hooks';
import { Problem } from '../offcuts/Choices.tsx';
import { whyItFailed } from '../places/moving.ts';
import { Frame } from '../shell/Frame.tsx';
import { ask, sayKept } from '../shell/feedback.tsx';
import { useInTheMiddle } from '../shell/middle.ts';
import { allowSound } from '../shell/sounds.ts';
import { row } from '../shell/things.ts';
import { Scanner } from '../tags/Scanner.tsx';
import { changeRun, handOf, type Run, setRun, undoAll, undoLast } from './current.ts';
import { planTitle, planWords, type StepPlan } from './plan.ts';
import { RunList } from './RunList.tsx';
import { RunOptions } from './RunOptions.tsx';
import { placeName } from './RunScreen.tsx';
import { type Answer, scanned } from './scanning.ts';
import { scansWords } from './words.ts';

// Tags one after another: the next is looked at when the one before it is kept or left.
function useScans() {
  const [answer, setAnswer] = useState<Answer | null>(null);
  const [busy, setBusy] = useState(false);
  const line = useRef(Promise.resolve());
  const take = (work: () => Promise<Answer | null>): void => {
    line.current = line.current.then(async () => {
      setBusy(true);
      try {
        setAnswer(await work());
      } catch (problem) {
        setAnswer({ sentence: problem instanceof Error ? problem.message : String(problem) });
      }
      setBusy(false);
    });
  };
  return { answer, busy, take };
}

export function RunAtWork({ run }: { run: Run }) {
  const { answer, busy, take } = useScans();
  const [changes, setChanges] = useState(false);
  useInTheMiddle(true); // a new version of the app waits until the run is over
  const { plan } = run;
  if (changes && plan.what === 'step')
    return (
      <Frame title={planTitle(plan, placeName)}>
        <RunOptions run={run} plan={plan} onDone={() => setChanges(false)} />
      </Frame>
    );
  return (
    <Frame title={planTitle(plan, placeName)}>
      {/* after a reload, the first touch lets it sound again */}
      <div class="run" onPointerDown={allowSound}>
        {plan.what === 'step' && <Asked run={run} plan={plan} onChange={() => setChanges(true)} />}
        <Scanner
          prompt={
            plan.what === 'put' ? 'What goes in it, one after another.' : 'One part after another.'
          }
          paused={busy}
          onRead={(code) => take(() => scanned(code))}
        />
        <Said answer={answer} onAgain={(go) => take(go)} />
        <SoFar run={run} />
      </div>
    </Frame>
  );
}

function Asked({ run, plan, onChange }: { run: Run; plan: StepPlan; onChange: () => void }) {
  const hand = handOf(run);
  const hands = run.eitherHand ? 'both' : plan.hands;
  return (
    <div class="run-asks">
      <p>{planWords({ ...plan, hands }, hand, row(plan.assembly)?.name ?? '')}</p>
      <button type="button" onClick={onChange}>
        Change
      </button>
    </div>
  );
}

function Said({
  answer,
  onAgain,
}: {
  answer: Answer | null;
  onAgain: (go: () => Promise<Answer | null>) => void;
}) {
  const { again, link } = answer ?? {};
  return (
    <div class="run-said" aria-live="assertive">
      {answer && (
        <div class="note">
          <p>{answer.sentence}</p>
          {again && (
            <button type="button" onClick={() => onAgain(again.go)}>
              {again.label}
            </button>
          )}
          {link && (
            <a class="button" href={link.to}>
              {link.label}
            </a>
          )}
        </div>
      )}
    </div>
  );
}

function SoFar({ run }: { run: Run }) {
  const [problem, setProblem] = useState('');
  const last = run.entries.at(-1);
  const undo = async (): Promise<void> => {
    const failed = await whyItFailed(async () => {
      const gone = await undoLast();
      if (gone) sayKept(`Taken back: ${gone.name}`);
    });
    setProblem(failed);
  };
  const finish = (): void => {
    if (run.entries.length || run.leftOut.length) changeRun({ finished: true });
    else setRun(null);
  };
  return (
    <>
      <Problem text={problem} />
      <div class="run-last">
        <p role="status">
          <b>{last ? `${scansWords(run)} so far` : 'Nothing scanned yet'}</b>
          {last && <span>{last.name}</span>}
        </p>
        {last && (
          <button type="button" onClick={undo}>
            Undo last
          </button>
        )}
      </div>
      <button type="button" class="main" onClick={finish}>
        {last ? 'Finish' : 'Something else'}
      </button>
      <RunList run={run} newestFirst />
      {run.entries.length > 1 && <UndoAll run={run} />}
    </>
  );
}

export function UndoAll({ run }: { run: Run }) {
  const [problem, setProblem] = useState('');
  const undo = async (): Promise<void> => {
    const what = scansWords(run);
    const answer = await ask(
      `Take back ${what}?`,
      'Everything that was recorded in this run is taken back at once.',
      [
        { label: 'Leave it as it is', answer: '', main: true },
        { label: `Take back ${what}`, answer: 'back' },
      ],
    );
    if (answer !== 'back') return;
    const failed = await whyItFailed(async () => {
      await undoAll();
      sayKept(`Taken back: ${what}`);
    });
    setProblem(failed);
  };
  return (
    <>
      <Problem text={problem} />
      <button type="button" class="leave" onClick={undo}>
        Undo the whole run
      </button>
    </>
  );
}
