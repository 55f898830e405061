import { describe, expect, test } from 'vitest';
import { groundOfPart } from '../parts/grounds.ts';
import { askOf, type Steps, stepsFrom, stepsOf, templateOf } from '../parts/steps.ts';
import type { Body, Fact } from '../twins/facts.ts';
import { fold } from '../twins/fold.ts';
import { judge, type Offered, type Said, type SoFar, type Verdict } from './judge.ts';
import { planAsked, planWords, type StepPlan, samePlan, stepPlan } from './plan.ts';

const HOUR = 3_600_000;
let seq = 0;
function fact(kind: string, body: Body, more: Partial<Fact> = {}): Fact {
  seq += 1;
  const id = `e${seq}`;
  const at = seq * 1000;
  return {
    id,
    kind,
    device: 'a',
    seq,
    at,
    pos: seq,
    base: seq - 1,
    by: 'sam',
    via: null,
    body,
    ...more,
  };
}
const step = (op: string, more: Body = {}, about: Partial<Fact> = {}): Fact =>
  fact('step.recorded.v1', { op, result: 'all', done: null, of: null, ...more }, about);

function asks(template: string, count: number | null = 38): Steps {
  const found = templateOf(template);
  if (!found) throw new Error(template);
  return stepsFrom(found, count);
}
function offered(
  name: string,
  steps: Steps | null,
  facts: Fact[] = [],
  more: Partial<Offered> = {},
): Offered {
  const first = [fact('part.added.v1', { name })];
  if (steps) first.push(fact('steps.set.v1', steps));
  const state = fold([...first, ...facts]);
  return {
    id: name,
    name,
    hand: null,
    station: null,
    assemblies: [],
    ground: groundOfPart(state),
    steps: stepsOf(state),
    lines: [],
    tagOnFilm: '',
    ...more,
  };
}
const soFar = (more: Partial<SoFar> = {}): SoFar => ({
  parts: new Set(),
  hand: null,
  filmTagsSafe: false,
  assemblyName: '',
  now: seq * 1000,
  ...more,
});
const done = (...ops: string[]): Fact[] => ops.map((op) => step(op));
const UP_TO_DIMPLE = ['form', 'edges', 'fit', 'drill', 'deburr'];
const asked = (op: string, more: Partial<StepPlan> = {}): StepPlan => ({
  ...stepPlan(op),
  ...more,
});

function stop(verdict: Verdict): Verdict & { is: 'stop' } {
  if (verdict.is !== 'stop') throw new Error(JSON.stringify(verdict));
  return verdict;
}
function say(verdict: Verdict): Verdict & { is: 'say' } {
  if (verdict.is !== 'say') throw new Error(JSON.stringify(verdict));
  return verdict;
}
function recorded(verdict: Verdict): string[] {
  if (verdict.is !== 'record') throw new Error(JSON.stringify(verdict));
  return verdict.choices.map((one) => [one.op, one.result, ...(one.sides ?? [])].join(' '));
}
const way = (verdict: Verdict, label: RegExp): Said => {
  const found = stop(verdict).ways.find((one) => label.test(one.label));
  if (!found) throw new Error(String(label));
  return found.said;
};

describe('a part that is ready', () => {
  test('is recorded at once, with what the run says of it', () => {
    const rib = offered('Rib 4', asks('rib'), done(...UP_TO_DIMPLE));
    const verdict = judge(asked('dimple', { die: '3/32' }), rib, soFar());
    expect(verdict).toMatchObject({
      is: 'record',
      finding: false,
      choices: [{ op: 'dimple', result: 'all', done: 38, of: 38, die: '3/32', sides: null }],
    });
  });
  test('only on the sides that are asked for and open', () => {
    const skin = offered('Skin', asks('skin flush'), [step('film', { sides: ['inside'] })]);
    expect(recorded(judge(asked('film'), skin, soFar()))).toEqual(['film all outside']);
    const only = asked('film', { sides: ['outside'] });
    expect(recorded(judge(only, offered('Skin', asks('web')), soFar()))).toEqual([
      'film all outside',
    ]);
  });
  test('twice in one run is said, and not recorded', () => {
    const rib = offered('Rib 4', asks('rib'), done('form'));
    const verdict = say(judge(asked('form'), rib, soFar({ parts: new Set(['Rib 4']) })));
    expect(verdict.sentence).toBe(
      'Rib 4 is recorded in this run already. Nothing is recorded again.',
    );
    expect(verdict.again).toBe(null);
  });
});

describe('T2: a part that is to stay bare, in a prime run', () => {
  const horn = (): Offered => offered('Rudder horn', asks('coated steel', 12));
  test('T2 is named before any step is recorded', () => {
    const verdict = stop(judge(asked('prime'), horn(), soFar()));
    expect(verdict.why).toBe('bare');
    expect(verdict.title).toBe('Keep Rudder horn bare');
    expect(verdict.text).toContain('prime inside and prime outside');
  });
  test('T2 recording it anyway opens a finding with it', () => {
    const verdict = judge(asked('prime'), horn(), soFar());
    const after = judge(asked('prime'), horn(), soFar(), way(verdict, /all the same/));
    expect(recorded(after)).toEqual(['prime all inside outside']);
    expect(after).toMatchObject({ finding: true });
  });
  test('T2 one bare face is named too, and the other can be recorded alone, without a finding', () => {
    const plate = (): Offered =>
      offered('Ground plate', asks('bonding face'), done('film', 'edges', 'deburr', 'clean'));
    const verdict = judge(asked('prime'), plate(), soFar());
    expect(stop(verdict).title).toBe('Keep the outside of Ground plate bare');
    const only = judge(asked('prime'), plate(), soFar(), way(verdict, /^Only the inside/));
    expect(recorded(only)).toEqual(['prime all inside']);
    expect(only).toMatchObject({ finding: false });
    const both = judge(asked('prime'), plate(), soFar(), way(verdict, /all the same/));
    expect(recorded(both)).toEqual(['prime all inside outside']);
    expect(both).toMatchObject({ finding: true });
    // a run for the inside alone does not touch the bare face
    expect(recorded(judge(asked('prime', { sides: ['inside'] }), plate(), soFar()))).toEqual([
      'prime all inside',
    ]);
  });
});

describe('T7: one of the wrong hand among twelve', () => {
  const rib = (n: number, hand: string): Offered =>
    offered(`Rib ${n} ${hand}`, asks('rib'), done(...UP_TO_DIMPLE), { hand });
  test('T7 stops before recording; the other eleven are recorded', () => {
    const parts = new Set<string>();
    let hand: string | null = null;
    const stopped: string[] = [];
    for (let n = 1; n <= 12; n += 1) {
      const part = rib(n, n === 7 ? 'right' : 'left');
      const verdict = judge(asked('dimple'), part, soFar({ parts, hand }));
      if (verdict.is === 'record') {
        parts.add(part.id);
        hand ??= part.hand;
      } else stopped.push(`${stop(verdict).why}: ${stop(verdict).title}`);
    }
    expect(stopped).toEqual(['wrong hand: Wrong hand: Rib 7 right']);
    expect(parts.size).toBe(11);
  });
  test('T7 it can be recorded all the same, alone or for the rest of the run', () => {
    const verdict = stop(judge(asked('dimple'), rib(7, 'right'), soFar({ hand: 'left' })));
    const [one, rest] = verdict.ways;
    expect(one?.lifts).toBe(undefined);
    expect(rest?.lifts).toBe('hand');
    expect(
      recorded(judge(asked('dimple'), rib(7, 'right'), soFar({ hand: 'left' }), one?.said)),
    ).toEqual(['dimple all']);
  });
  test('T7 the worse stop behind it still stops', () => {
    const bare = offered('Horn right', asks('coated steel'), [], { hand: 'right' });
    const first = judge(asked('prime'), bare, soFar({ hand: 'left' }));
    const second = judge(asked('prime'), bare, soFar({ hand: 'left' }), way(first, /too$/));
    expect(stop(second).why).toBe('bare');
  });
});

describe('T7: a part bound to its station, offered elsewhere', () => {
  const bound = (facts: Fact[], more: Partial<Offered> = {}): Offered =>
    offered('Angle 3', asks('angle'), facts, {
      station: 'S 52',
      assemblies: ['flap', 'wing'],
      ...more,
    });
  const drilled = (): Offered => bound(done('edges', 'fit', 'drill'));
  test('T7 stops in a run for another station', () => {
    const verdict = stop(judge(asked('deburr', { station: 'S 34' }), drilled(), soFar()));
    expect(verdict.title).toBe('Angle 3 belongs at S 52');
    expect(verdict.text).toContain('station S 34');
  });
  test('T7 stops in a run for another assembly, and not in one for the assembly over its own', () => {
    const run = (assembly: string): Verdict =>
      judge(asked('deburr', { assembly }), drilled(), soFar({ assemblyName: 'Rudder' }));
    expect(stop(run('rudder')).text).toContain('for Rudder');
    expect(run('wing').is).toBe('record');
  });
  test('T7 goes on where it belongs, and before it is drilled', () => {
    expect(judge(asked('deburr', { station: 's 52 ' }), drilled(), soFar()).is).toBe('record');
    const loose = bound(done('edges', 'fit'));
    expect(judge(asked('drill', { station: 'S 34' }), loose, soFar()).is).toBe('record');
  });
  test('T7 the holes of a rivet line bind it as well', () => {
    const inLine = bound(done('edges', 'fit'), {
      lines: [{ id: 'l', name: 'top', strip: '----d------' }],
    });
    expect(stop(judge(asked('form', { station: 'S 34' }), inLine, soFar())).why).toBe('elsewhere');
  });
});

describe('what was done already', () => {
  test('is said where repeating does no harm, and can be recorded again', () => {
    const rib = offered('Rib 4', asks('rib'), done('form'));
    const verdict = say(judge(asked('form'), rib, soFar()));
    expect(verdict).toMatchObject({ why: 'done', label: 'Record it again' });
    expect(recorded(judge(asked('form'), rib, soFar(), verdict.again ?? undefined))).toEqual([
      'form all',
    ]);
  });
  test('stops where doing it twice can cost the part', () => {
    const cap = (): Offered =>
      offered(
        'Cap',
        asks('thick countersunk'),
        done('edges', 'fit', 'drill', 'deburr', 'countersink'),
      );
    const verdict = judge(asked('countersink'), cap(), soFar());
    expect(stop(verdict)).toMatchObject({ why: 'harmful', title: 'Cap is countersunk already' });
    const again = judge(asked('countersink'), cap(), soFar(), way(verdict, /all the same/));
    expect(recorded(again)).toEqual(['countersink all']);
  });
  test('partly stops too, and says how far it is', () => {
    const partly = step('countersink', { result: 'some', done: 20, of: 38 });
    const cap = offered('Cap', asks('thick countersunk'), [
      ...done('edges', 'fit', 'drill', 'deburr'),
      partly,
    ]);
    expect(stop(judge(asked('countersink'), cap, soFar())).text).toContain('20 of 38');
  });
  test('in doubt stops: look at the part, for this and for what comes after', () => {
    const ready = done('edges', 'fit', 'drill', 'deburr');
    const blind = { device: 'b', seq: 1, base: 0 };
    const cap = (): Offered =>
      offered('Cap', asks('thick countersunk'), [
        ...ready,
        step('countersink'),
        step('countersink', {}, blind),
      ]);
    const verdict = judge(asked('countersink'), cap(), soFar());
    expect(stop(verdict)).toMatchObject({ why: 'look', title: 'Look at Cap' });
    const answer = judge(asked('countersink'), cap(), soFar(), way(verdict, /I looked/));
    expect(answer).toMatchObject({ is: 'record', choices: [{ op: 'countersink', looked: true }] });
    expect(stop(judge(asked('prime'), cap(), soFar())).why).toBe('look');
    expect(judge(asked('deburr'), cap(), soFar())).toMatchObject({ is: 'say', why: 'done' });
  });
});

describe('what its steps do not ask for', () => {
  test('is said, or stops where it cannot be undone', () => {
    const web = offered('Web', asks('web'), done('film', 'edges', 'fit', 'drill', 'deburr'));
    const dimple = say(judge(asked('dimple'), web, soFar()));
    expect(dimple.sentence).toBe('The steps of Web do not ask for dimple. Nothing is recorded.');
    expect(recorded(judge(asked('dimple'), web, soFar(), dimple.again ?? undefined))).toEqual([
      'dimple all',
    ]);
    expect(stop(judge(asked('countersink'), web, soFar())).title).toBe('Do not countersink Web');
  });
  test('a part without steps says that first', () => {
    expect(say(judge(asked('form'), offered('Rib', null), soFar())).sentence).toContain(
      'Nothing is said yet of what Rib needs',
    );
  });
  test('holes in a rivet line are recorded there', () => {
    const steps = askOf(asks('rib'), 'dimple', 'not');
    const lines = [{ id: 'l', name: 'rear spar', strip: '---dddt----' }];
    const rib = offered('Rib', steps, done(...UP_TO_DIMPLE), { lines });
    expect(say(judge(asked('dimple'), rib, soFar()))).toMatchObject({
      why: 'in lines',
      again: null,
    });
  });
});

describe('before its turn', () => {
  test('stops with what is missing, and can be recorded anyway', () => {
    const rib = offered('Rib 4', asks('rib'), done('form', 'edges', 'fit', 'drill'));
    const verdict = judge(asked('dimple'), rib, soFar());
    expect(stop(verdict)).toMatchObject({ why: 'order', title: 'Not yet: Rib 4' });
    expect(stop(verdict).text).toContain('it comes first: deburr.');
    expect(recorded(judge(asked('dimple'), rib, soFar(), way(verdict, /anyway/)))).toEqual([
      'dimple all',
    ]);
  });
  test('one face does not wait for the other', () => {
    const web = offered('Web', asks('web'), [
      ...done('film', 'edges', 'fit', 'drill', 'deburr'),
      step('clean', { sides: ['inside'] }),
    ]);
    expect(recorded(judge(asked('prime', { sides: ['inside'] }), web, soFar()))).toEqual([
      'prime all inside',
    ]);
    expect(stop(judge(asked('prime', { sides: ['outside'] }), web, soFar())).text).toContain(
      'clean outside',
    );
  });
  test('a clean face has its hours', () => {
    const web = offered(
      'Web',
      asks('web'),
      done('film', 'edges', 'fit', 'drill', 'deburr', 'clean'),
    );
    const now = soFar().now;
    expect(judge(asked('prime'), web, soFar({ now: now + 7 * HOUR })).is).toBe('record');
    const late = stop(judge(asked('prime'), web, soFar({ now: now + 9 * HOUR })));
    expect(late.text).toContain('cleaned 9 hours ago, and its steps give 8 hours');
  });
  test('a small clip is cleaned and primed by one scan, once its edges and holes are done', () => {
    const clip = (facts: Fact[]): Offered => offered('Clip', asks('small clip', 2), facts);
    expect(recorded(judge(asked('prime'), clip(done('film', 'edges', 'deburr')), soFar()))).toEqual(
      ['clean all inside outside', 'prime all inside outside'],
    );
    expect(stop(judge(asked('prime'), clip(done('film', 'edges')), soFar())).text).toContain(
      'deburr',
    );
  });
  test('the final size after dimpling does not hold up the dimple', () => {
    const steps = { ...asks('rib'), final_after_dimple: true };
    const rib = offered('Rib', steps, done('form', 'edges', 'fit', 'deburr'));
    expect(judge(asked('dimple'), rib, soFar()).is).toBe('record');
  });
  test('the holes of its lines count before a face is cleaned', () => {
    const lines = [{ id: 'l', name: 'rear spar', strip: '-----t-----' }];
    const rib = offered('Rib', asks('rib'), done(...UP_TO_DIMPLE, 'dimple'), { lines });
    expect(stop(judge(asked('clean'), rib, soFar())).text).toContain(
      'deburr in the line rear spar',
    );
  });
});

describe('a tag that goes with the film', () => {
  test('stops until it is said to be safe, for one or for all', () => {
    const skin = offered('Skin', asks('web'), [], { tagOnFilm: '7K2QD 0ABCD' });
    const verdict = stop(judge(asked('film'), skin, soFar()));
    expect(verdict.why).toBe('tag on film');
    expect(verdict.ways.map((one) => one.lifts)).toEqual([undefined, 'film']);
    expect(judge(asked('film'), skin, soFar(), verdict.ways[0]?.said).is).toBe('record');
    expect(judge(asked('film'), skin, soFar({ filmTagsSafe: true })).is).toBe('record');
    expect(judge(asked('edges'), skin, soFar()).is).toBe('record');
  });
});

describe('what a run is', () => {
  test('is read from its address', () => {
    expect(planAsked('?op=deburr')).toEqual(stepPlan('deburr'));
    expect(planAsked('?place=abc')).toEqual({ what: 'put', to: 'abc' });
    expect(planAsked('?op=polish')).toBe(null);
    expect(samePlan(stepPlan('film'), stepPlan('film'))).toBe(true);
    expect(samePlan(stepPlan('film'), { what: 'put', to: 'a' })).toBe(false);
  });
  test('is said in one sentence', () => {
    expect(planWords(stepPlan('dimple'), null, '')).toBe('One hand only, that of the first part.');
    const prime = asked('prime', { sides: ['inside'], lot: 'B 7', coats: 2, hands: 'both' });
    expect(planWords(prime, null, 'Rudder')).toBe(
      'Either hand, inside only, lot B 7, 2 coats, for Rudder.',
    );
  });
});
