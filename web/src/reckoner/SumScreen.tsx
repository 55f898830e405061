// One sum: what it takes above, the answer under it as one types, without a network.
import { useMemo } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { openedPhone } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { Sum } from '../twins/reckon.ts';
import { WantThis } from '../wanted/WantThis.tsx';
import { About } from './About.tsx';
import { AnswerHead, AnswerRest, Heard, NoAnswer } from './AnswerView.tsx';
import { aboutAt } from './address.ts';
import { RULES, sumNamed } from './book.ts';
import { asked } from './figures.ts';
import { Keep } from './Keep.tsx';
import { knownOf } from './known.ts';
import './print.css';
import { PrintFoot } from './PrintFoot.tsx';
import './reckoner.css';
import { SumForm } from './SumForm.tsx';
import { understand } from './typed.ts';
import { useSettled, useTyping } from './typing.ts';

export function SumScreen({ id }: { id: string }) {
  const sum = sumNamed(id);
  if (sum) return <Opened sum={sum} />;
  return (
    <Frame title="No such sum">
      <p>There is no sum of that name. All there are stand on one page.</p>
      <a class="button main" href="/reckoner">
        All sums
      </a>
    </Frame>
  );
}

function Opened({ sum }: { sum: Sum }) {
  const { unit } = openedPhone().identity;
  const about = aboutAt(location.search);
  const thing = row(about);
  const known = useMemo(
    () => (thing ? knownOf(sum, thing, RULES.words.metals) : {}),
    [sum.name, about],
  );
  const { typed, change, clear } = useTyping(sum, about, known);
  const understood = useMemo(() => understand(RULES, sum, typed, unit), [sum, typed, unit]);
  const { answer, inputs } = understood;
  const [main, others] = answer ? asked(sum, answer, unit) : [null, []];
  const settled = useSettled(typed);
  return (
    <Frame title={sum.title}>
      {thing && <About thing={thing} />}
      <div class="sum">
        <SumForm
          sum={sum}
          unit={unit}
          typed={typed}
          problems={settled === typed ? understood.problems : {}}
          verdict={answer?.verdict ?? ''}
          onChange={change}
          onClear={clear}
        />
        {answer ? (
          <AnswerHead answer={answer} main={main} />
        ) : (
          <NoAnswer sum={sum} understood={understood} />
        )}
        <Heard answer={answer} main={main} />
        {answer && (
          <AnswerRest sum={sum} answer={answer} others={others} inputs={inputs} unit={unit}>
            {sum.piece && (
              <WantThis sum={sum} answer={answer} inputs={inputs} unit={unit} about={thing} />
            )}
            <Keep sum={sum} answer={answer} main={main} inputs={inputs} unit={unit} about={thing} />
            <PrintFoot about={thing} />
          </AnswerRest>
        )}
      </div>
    </Frame>
  );
}
