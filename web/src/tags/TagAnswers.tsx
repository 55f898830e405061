// Two phones put the same tag on different things before they had met. The first to reach the
// workshop's computer holds it; both things ask which one really carries it.
import { useEffect, useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { openedPhone, version } from '../shell/state.ts';
import { row, rows } from '../shell/things.ts';
import type { State } from '../twins/fold.ts';
import { grouped } from '../twins/tagcode.ts';
import { lostClaims, settled } from './attaching.ts';
import { keptOrWhy } from './keeping.ts';
import './tags.css';

interface Question {
  code: string;
  things: [string, string];
}

export function TagAnswers({ id, state }: { id: string; state: State }) {
  const claimedElsewhere = useClaimsOn(id, state);
  const own = lostClaims(state.answers).map(
    ({ code, holder }): Question => ({ code, things: [holder, id] }),
  );
  return (
    <>
      {[...own, ...claimedElsewhere].map((question) => (
        <Which question={question} key={question.code + question.things.join()} />
      ))}
    </>
  );
}

/** Questions that other things ask about tags which this thing holds. */
function useClaimsOn(id: string, state: State): Question[] {
  const [found, setFound] = useState<Question[]>([]);
  const now = version.value;
  const held = state.tags.length;
  useEffect(() => {
    let current = true;
    void claimsOn(held ? id : '').then((questions) => current && setFound(questions));
    return () => {
      current = false;
    };
  }, [id, held, now]);
  return found;
}

async function claimsOn(id: string): Promise<Question[]> {
  if (!id) return [];
  const asking = ['part', 'offcut', 'place'].flatMap((sort) => rows(sort, true));
  const questions: Question[] = [];
  for (const one of asking.filter((each) => each.answers > 0 && each.id !== id)) {
    const card = await openedPhone().card(one.id);
    for (const { code, holder } of lostClaims(card?.state.answers ?? []))
      if (holder === id) questions.push({ code, things: [id, one.id] });
  }
  return questions;
}

function Which({ question: { code, things } }: { question: Question }) {
  const [first, second] = things;
  const [problem, setProblem] = useState('');
  const nameOf = (id: string): string => row(id)?.name || 'a thing without a name';
  const settle = async (carries: string, other: string): Promise<void> => {
    const why = await keptOrWhy(settled(code, carries, other));
    setProblem(why);
    if (!why) sayKept(`Tag ${grouped(code)}: ${nameOf(carries)}`);
  };
  return (
    <section class="problem tag-question" aria-label={`Which thing carries tag ${grouped(code)}`}>
      <p>
        Two phones put the tag <span class="code">{grouped(code)}</span> on different things:{' '}
        {nameOf(first)} and {nameOf(second)}. Look at the tag. Which one carries it?
      </p>
      {problem && <p role="alert">{problem}</p>}
      <button type="button" onClick={() => settle(first, second)}>
        {nameOf(first)}
      </button>
      <button type="button" onClick={() => settle(second, first)}>
        {nameOf(second)}
      </button>
    </section>
  );
}
