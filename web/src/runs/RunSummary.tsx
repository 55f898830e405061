// A finished run: what was recorded, what was left out and why.
import { Frame } from '../shell/Frame.tsx';
import { go } from '../shell/router.ts';
import { changeRun, type Run } from './current.ts';
import { planTitle } from './plan.ts';
import { UndoAll } from './RunAtWork.tsx';
import { RunList } from './RunList.tsx';
import { placeName } from './RunScreen.tsx';
import { leftOutWords, summaryWords } from './words.ts';

export function RunSummary({ run, onClose }: { run: Run; onClose: () => void }) {
  const left = leftOutWords(run);
  return (
    <Frame title={`${planTitle(run.plan, placeName)}: finished`}>
      <p class="run-sum" role="status">
        {summaryWords(run, placeName)}
      </p>
      {left && <p class="note">{left}</p>}
      <RunList run={run} />
      <button
        type="button"
        class="main"
        onClick={() => {
          onClose();
          go('/');
        }}
      >
        Back to the bench
      </button>
      <div class="run-ways">
        <button type="button" onClick={() => changeRun({ finished: false })}>
          Scan more
        </button>
        <button type="button" onClick={onClose}>
          Another run
        </button>
      </div>
      {run.entries.length > 0 && <UndoAll run={run} />}
    </Frame>
  );
}
