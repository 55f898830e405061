// Two different answers to a plain question: which one is right?
import { sayKept } from '../shell/feedback.tsx';
import { record } from '../shell/state.ts';
import type { Body, Json } from '../twins/facts.ts';
import type { Answer, State } from '../twins/fold.ts';
import { fieldWord, valueWords } from './history.ts';
import { NAMES, personName } from './people.ts';
import { capital, listed } from './words.ts';

const WHOLE: Record<string, { words: string; to: string; link: string }> = {
  steps: {
    words: 'Two phones set differently what this part needs. The answer that came first is shown.',
    to: 'needs',
    link: 'Look at what it needs, and keep it as it should be',
  },
  line: {
    words: 'Two phones set this line differently. The answer that came first is shown.',
    to: 'edit',
    link: 'Look at the line, and keep it as it should be',
  },
};

interface Props {
  id: string;
  state: State;
  path: string;
  kind?: string; // how such a thing is described anew
}

export function Answers({ id, state, path, kind = 'part.described.v1' }: Props) {
  const open = state.answers.filter((answer) => answer.about !== 'tag');
  return (
    <>
      {open.map((answer) =>
        WHOLE[answer.about] ? (
          <section class="problem" key={answer.about}>
            <p>{WHOLE[answer.about]?.words}</p>
            <a class="button" href={`${path}/${WHOLE[answer.about]?.to}`}>
              {WHOLE[answer.about]?.link}
            </a>
          </section>
        ) : (
          <Plain id={id} answer={answer} kind={kind} key={answer.about} />
        ),
      )}
    </>
  );
}

// What is recorded where a value is settled; some fields have a kind of entry of their own.
function settling(about: string, value: Json, kind: string): { kind: string; body: Body } {
  if (about === 'segments') return { kind: 'line.segments.v1', body: { segments: value } };
  if (about === 'decision') return { kind: 'finding.decided.v1', body: value as Body };
  if (about === 'met') return { kind: 'piece.met.v1', body: { part: value } };
  return { kind, body: { [about]: value } };
}

function Plain({ id, answer, kind }: { id: string; answer: Answer; kind: string }) {
  const what = fieldWord(answer.about);
  const said = (value: Json): string => valueWords(answer.about, value, NAMES);
  const values = answer.values.map(({ value, by }) => `${said(value)} (${personName(by)})`);
  const settle = async (value: Json): Promise<void> => {
    await record([{ subject: id, ...settling(answer.about, value, kind) }]);
    sayKept(`${capital(what)}: ${said(value)}`);
  };
  return (
    <section class="problem answer" aria-label={`Two different answers: ${what}`}>
      <p>
        Two phones wrote a different {what}: {listed(values, 'or')}. Which is right?
      </p>
      {answer.values.map(({ event, value }) => (
        <button type="button" key={event} onClick={() => settle(value)}>
          {said(value)}
        </button>
      ))}
    </section>
  );
}
