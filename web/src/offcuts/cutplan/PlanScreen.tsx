// The cut plan: which pieces wanted are cut from which offcuts, a page each in the order of cutting.
import { useEffect, useRef, useState } from 'preact/hooks';
import { Frame } from '../../shell/Frame.tsx';
import { openedPhone } from '../../shell/state.ts';
import { OutOfReach, Refused } from '../../sync/wire.ts';
import { readLength } from '../../twins/lengths.ts';
import { openPieces, pieceOf } from '../../wanted/open.ts';
import { pieceWords, unbroken } from '../../wanted/words.ts';
import { Problem } from '../Choices.tsx';
import { PlanAnswer } from './PlanAnswer.tsx';
import { beginPlan, cancelPlan, lookAtPlan, type Planning } from './plan.ts';
import '../offcuts.css';
import './plan.css';

const EVERY_MS = 400;
// a plan that was made outlives a look at another screen
let last: Planning | null = null;

export function PlanScreen() {
  const pieces = openPieces();
  const [left, setLeft] = useState<readonly string[]>([]);
  const [kerf, setKerf] = useState('');
  const { planning, problem, begin, cancel } = usePlanning();
  const { unit } = openedPhone().identity;
  const chosen = pieces.map(({ id }) => id).filter((id) => !left.includes(id));
  const read = kerf.trim() ? readLength(kerf, unit) : null;
  const wrong = read && 'sentence' in read ? String(read.sentence) : '';
  if (!pieces.length && !planning) return <None />;
  const working = planning?.state === 'working';
  return (
    <Frame title="Cut plan">
      <div class="cut-plan">
        <form
          class="stack asked"
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            if (!wrong) begin(chosen, read && 'nm' in read ? read.nm : null);
          }}
        >
          <fieldset class="plan-pieces">
            <legend>Pieces to cut</legend>
            {pieces.map((one) => (
              <label class="tick" key={one.id}>
                <input
                  type="checkbox"
                  checked={!left.includes(one.id)}
                  onChange={(event) =>
                    setLeft(
                      event.currentTarget.checked
                        ? left.filter((id) => id !== one.id)
                        : [...left, one.id],
                    )
                  }
                />
                <span>
                  <b>{one.name}</b>
                  <small>{unbroken(pieceWords(pieceOf(one), unit))}</small>
                </span>
              </label>
            ))}
          </fieldset>
          <label>
            A cut takes, {unit}
            <small>empty: what the workshop says its saw takes</small>
            <input
              class="figures"
              value={kerf}
              autocomplete="off"
              onInput={(event) => setKerf(event.currentTarget.value)}
            />
          </label>
          <Problem text={wrong || problem} />
          <button type="submit" class="main" disabled={working || !chosen.length}>
            {chosen.length ? 'Make the plan' : 'Choose a piece first'}
          </button>
        </form>
        {working && <Working planning={planning} onCancel={cancel} />}
        {planning?.state === 'cancelled' && <p>The plan was cancelled.</p>}
        {planning?.state === 'failed' && (
          <p class="problem" role="alert">
            The plan could not be made. What is written down is not touched; make it again.
          </p>
        )}
        {planning?.plan && <PlanAnswer plan={planning.plan} />}
      </div>
    </Frame>
  );
}

/** Begins a plan and asks after it until it ends. */
function usePlanning() {
  const [planning, setPlanning] = useState<Planning | null>(last);
  const [problem, setProblem] = useState('');
  const alive = useRef(true);
  useEffect(() => {
    alive.current = true;
    return () => {
      alive.current = false;
    };
  }, []);
  const told = (now: Planning): void => {
    last = now.state === 'working' ? null : now;
    if (alive.current) setPlanning(now);
  };
  const tried = async (work: () => Promise<void>): Promise<void> => {
    setProblem('');
    try {
      await work();
    } catch (reason) {
      if (!(reason instanceof OutOfReach || reason instanceof Refused)) throw reason;
      setPlanning(null);
      setProblem(`${reason.message} A cut plan needs the workshop computer.`);
    }
  };
  const begin = (pieces: readonly string[], kerf: number | null): Promise<void> =>
    tried(async () => {
      let now = await beginPlan(pieces, kerf);
      told(now);
      while (alive.current && now.state === 'working') {
        await new Promise((done) => setTimeout(done, EVERY_MS));
        now = await lookAtPlan(now.id);
        told(now);
      }
    });
  const cancel = (): Promise<void> =>
    tried(async () => {
      if (planning) await cancelPlan(planning.id);
    });
  return { planning, problem, begin, cancel };
}

function Working({ planning, onCancel }: { planning: Planning; onCancel: () => void }) {
  const { done, of, placed } = planning;
  return (
    <section class="stack" aria-label="The plan is being made">
      <p role="status">
        {of ? `${done} of ${of} pieces looked at, ${placed} placed.` : 'Looking at the offcuts …'}
      </p>
      <progress max={of || 1} value={done} aria-label="How far the plan is" />
      <button type="button" onClick={onCancel}>
        Cancel
      </button>
    </section>
  );
}

function None() {
  return (
    <Frame title="Cut plan">
      <p>
        No piece is wanted. A cut plan says which pieces to cut from which offcuts, so that what
        stays is of most use; say first what has to be made.
      </p>
      <a class="button main" href="/wanted">
        I need a piece
      </a>
    </Frame>
  );
}
