// One scan in a run: what the tag is on, whether it may be recorded, and the record itself.
import { settle } from '../parts/choices.ts';
import { drafts as stepDrafts } from '../parts/recording.ts';
import { operation } from '../parts/steps.ts';
import { listed, sayChoice } from '../parts/words.ts';
import { moveDrafts } from '../places/moving.ts';
import { named } from '../places/words.ts';
import { ask, sayKept } from '../shell/feedback.tsx';
import { record, sync } from '../shell/state.ts';
import { find, pathOf, row } from '../shell/things.ts';
import { newId } from '../store/ids.ts';
import { type Draft, NoRoom } from '../store/outbox.ts';
import type { Row } from '../store/rows.ts';
import { grouped } from '../twins/tagcode.ts';
import { addEntry, addLeftOut, changeRun, currentRun, type Run } from './current.ts';
import { judge, type Said, type Verdict } from './judge.ts';
import { offeredPart, soFarOf } from './offering.ts';
import type { StepPlan } from './plan.ts';
import { judgePut } from './putting.ts';

/** What is said about the last tag where nothing was recorded. */
export interface Answer {
  sentence: string;
  link?: { to: string; label: string };
  again?: { label: string; go: () => Promise<Answer | null> };
}

/** Takes a tag into the run. Null where it was recorded, or a person decided to leave it. */
export async function scanned(code: string): Promise<Answer | null> {
  const run = currentRun();
  if (!run) return null;
  const found = find(code);
  if (found.is === 'blank') return { sentence: `${grouped(code)} is on nothing yet.` };
  if (found.is === 'unknown') {
    void sync(); // it may have been printed or put on a moment ago
    return {
      sentence: `${grouped(code)} is a tag, but not one that this device knows. Nothing is recorded.`,
    };
  }
  const thing = found.row;
  if (thing.retired)
    return {
      sentence: `${named(thing)} is no longer there. Nothing is recorded.`,
      ...linkTo(thing),
    };
  return run.plan.what === 'put'
    ? put(run, run.plan.to, thing, code)
    : work(run, run.plan, thing, code);
}

const linkTo = (thing: Row): { link: { to: string; label: string } } => ({
  link: { to: pathOf(thing), label: `Look at ${named(thing)}` },
});

async function work(run: Run, plan: StepPlan, thing: Row, code: string): Promise<Answer | null> {
  const { name } = operation(plan.op);
  if (thing.sort === 'place')
    return { sentence: `${thing.name} is a place. This run is for parts: ${name}.` };
  if (thing.sort !== 'part')
    return { sentence: `${named(thing)} is an ${thing.sort}, not a part. Nothing is recorded.` };
  return decide(plan, thing, code, { passed: [] }, run);
}

async function decide(
  plan: StepPlan,
  part: Row,
  code: string,
  first: Said,
  run: Run,
): Promise<Answer | null> {
  const offered = await offeredPart(part);
  let said = first;
  for (;;) {
    const verdict = judge(plan, offered, soFarOf(currentRun() ?? run), said);
    if (verdict.is === 'record') return keepStep(plan, part, code, verdict);
    if (verdict.is === 'say')
      return answerOf(verdict, part, (again) => decide(plan, part, code, again, run));
    const taken = await stopFor(verdict);
    if (!taken) {
      addLeftOut({ thing: part.id, name: offered.name, why: leftOutWords(verdict.why) });
      return null;
    }
    if (taken.lifts === 'hand') changeRun({ eitherHand: true });
    if (taken.lifts === 'film') changeRun({ filmTagsSafe: true });
    said = taken.said;
  }
}

function answerOf(
  verdict: Verdict & { is: 'say' },
  part: Row,
  decideAgain: (said: Said) => Promise<Answer | null>,
): Answer {
  const { sentence, again, label, why } = verdict;
  if (again) return { sentence, again: { label, go: () => decideAgain(again) } };
  return why === 'in this run' ? { sentence } : { sentence, ...linkTo(part) };
}

type Stop = Verdict & { is: 'stop' };

/** Stops with word, tone and vibration; the way taken, or null where the part is left out. */
async function stopFor({ title, text, leave, ways }: Stop): Promise<Stop['ways'][number] | null> {
  const answer = await ask(title, text, [
    { label: leave, answer: '', main: true },
    ...ways.map((way, at) => ({ label: way.label, answer: String(at) })),
  ]);
  return answer === '' ? null : (ways[Number(answer)] ?? null);
}

const LEFT_OUT: Record<string, string> = {
  'wrong hand': 'wrong hand',
  elsewhere: 'belongs elsewhere',
  bare: 'keep bare',
  look: 'look at it first',
  harmful: 'done already',
  order: 'something comes first',
  'tag on film': 'its tag is on the film',
  'not needed': 'not needed',
};
const leftOutWords = (why: string): string => LEFT_OUT[why] ?? why;

async function keepStep(
  plan: StepPlan,
  part: Row,
  code: string,
  { choices, finding }: Verdict & { is: 'record' },
): Promise<Answer | null> {
  const name = named(part);
  const bare = finding ? [{ part: part.id, name, op: plan.op, where: '' }] : [];
  const written = stepDrafts(part.id, choices, bare, code, newId);
  const words = choices.map((choice, at) => {
    const word = operation(choice.op).done_word;
    return at ? word.toLowerCase() : word;
  });
  const last = choices.at(-1);
  const how = last ? (sayChoice(null, settle(last)).split(': ')[1] ?? '') : '';
  return keep(part, name, how, written, `${listed(words)}: ${name}`);
}

async function put(run: Run, to: string, thing: Row, code: string): Promise<Answer | null> {
  const place = row(to);
  if (!place || place.retired) return { sentence: 'The place of this run is no longer there.' };
  const offered = thing.sort === 'part' ? await offeredPart(thing) : null;
  const into = place.fields.form === 'assembly' ? place.name : '';
  const verdict = judgePut(thing, place, { parts: soFarOf(run).parts, offered, into, row });
  if (verdict.is === 'say') return { sentence: verdict.sentence };
  if (verdict.is === 'stop') {
    const taken = await stopFor(verdict);
    if (!taken) {
      addLeftOut({ thing: thing.id, name: named(thing), why: leftOutWords(verdict.why) });
      return null;
    }
  }
  if (verdict.is === 'which' && !(await whichPlace(thing, place, verdict))) return null;
  const name = named(thing);
  const written = moveDrafts([thing], to, code);
  return keep(thing, name, `in ${place.name}`, written, `In ${place.name}: ${name}`);
}

/** A place was scanned: true where it is to go into the place of the run. */
async function whichPlace(
  thing: Row,
  place: Row,
  { text, mayPut }: { text: string; mayPut: boolean },
): Promise<boolean> {
  const into = { label: `Put ${thing.name} in ${place.name}`, answer: 'put' };
  const answer = await ask(`${thing.name} is a place`, text, [
    { label: `Go on, putting things in ${thing.name}`, answer: 'go on', main: true },
    ...(mayPut ? [into] : []),
    { label: 'Neither', answer: '' },
  ]);
  if (answer === 'go on') changeRun({ plan: { what: 'put', to: thing.id } });
  return answer === 'put';
}

/** Records, and only then says so. */
async function keep(
  thing: Row,
  name: string,
  how: string,
  written: Draft[],
  label: string,
): Promise<Answer | null> {
  try {
    const ids = await record(written);
    const events = written.map((one, at) => ({ event: ids[at] ?? '', subject: one.subject }));
    const hand = typeof thing.fields.hand === 'string' ? thing.fields.hand : null;
    addEntry({ thing: thing.id, name, how, hand, at: Date.now(), events });
    sayKept(label);
    return null;
  } catch (problem) {
    if (problem instanceof NoRoom) return { sentence: problem.message };
    throw problem;
  }
}
