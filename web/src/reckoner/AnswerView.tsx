// An answer: the verdict in a word, the figure asked for, why, a drawing, and what it stands on.
import type { ComponentChildren } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Unit } from '../twins/lengths.ts';
import type { Answer, Sum } from '../twins/reckon.ts';
import type { Typed } from './address.ts';
import { Drawings } from './Drawings.tsx';
import { type Figure, spoken } from './figures.ts';
import { small, type Understood } from './typed.ts';
import { useSettled } from './typing.ts';
import { Verdict } from './Verdict.tsx';

/** Stays in sight under the fields while they are filled in. */
export function AnswerHead({ answer, main }: { answer: Answer; main: Figure | null }) {
  return (
    <div class={`answer-head ${answer.verdict.replace(' ', '-')}`}>
      <p class="verdict-line">
        <Verdict verdict={answer.verdict} />
        {main && <span class="faint">{main.label}</span>}
      </p>
      {main && (
        <p class="asked-for">
          <b>{main.own}</b>
          {main.other && <span>{main.other}</span>}
        </p>
      )}
    </div>
  );
}

export function NoAnswer({ sum, understood }: { sum: Sum; understood: Understood }) {
  const { problems, missing } = understood;
  const wrong = sum.takes.filter(({ key }) =>
    Object.keys(problems).some((field) => field.split('.')[0] === key),
  );
  return (
    <div class="answer-head none">
      <p>
        {wrong.length > 0
          ? `No answer: ${wrong.map(({ label }) => small(label)).join(' and ')} cannot be read.`
          : `Still to give: ${missing.join('; ')}.`}
      </p>
    </div>
  );
}

/** Read out once typing has stopped, not with every key. */
export function Heard({ answer, main }: { answer: Answer | null; main: Figure | null }) {
  const words = useSettled(answer ? spoken(answer, main) : '');
  return (
    <p class="out-of-sight" aria-live="polite">
      {words}
    </p>
  );
}

// the rules say with this answer what may mark it out
const MARKS_OUT = /\bscribe\b/i;

interface RestProps {
  sum: Sum;
  answer: Answer;
  others: Figure[];
  inputs: Typed;
  unit: Unit;
  children: ComponentChildren;
}

export function AnswerRest({ sum, answer, others, inputs, unit, children }: RestProps) {
  const drawings = useMemo(
    () => <Drawings sum={sum} answer={answer} inputs={inputs} unit={unit} />,
    [sum, answer, inputs, unit],
  );
  return (
    <section
      class={`answer-rest${MARKS_OUT.test(answer.caution) ? ' marks-out' : ''}`}
      aria-label="The answer"
    >
      {answer.why && <p class="why">{answer.why}</p>}
      {drawings}
      {others.length > 0 && <Figures figures={others} unit={unit} />}
      <p class="caution">{answer.caution}</p>
      <p>
        <b>Source:</b> {answer.source}
        {/[.!]$/.test(answer.source) ? '' : '.'}
      </p>
      <p class="faint">Read as: {answer.read_as}.</p>
      {children}
    </section>
  );
}

function Figures({ figures, unit }: { figures: Figure[]; unit: Unit }) {
  return (
    <table class="answer-figures">
      <caption class="out-of-sight">The other figures</caption>
      <thead class="out-of-sight">
        <tr>
          <th scope="col">What</th>
          <th scope="col">{unit === 'in' ? 'in inches' : 'metric'}</th>
          <th scope="col">{unit === 'in' ? 'metric' : 'in inches'}</th>
        </tr>
      </thead>
      <tbody>
        {figures.map(({ key, label, own, other }) => (
          <tr key={key}>
            <th scope="row">{label}</th>
            <td class={several(own)} colSpan={other ? 1 : 2}>
              {own}
            </td>
            {other && <td class={several(other)}>{other}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

// a list of figures, or words, may take more than a line
const several = (text: string): string => (/, |[a-z]{4}/.test(text) ? 'several' : '');
