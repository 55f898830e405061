import { describe, expect, it } from 'vitest';
import type { Body, Fact } from '../twins/facts.ts';
import { fold, type State } from '../twins/fold.ts';
import {
  allOf,
  bodyOf,
  type Choice,
  inDoubt,
  mainOps,
  settle,
  wrongWithChoice,
} from './choices.ts';
import { groundOfPart, nextOf } from './grounds.ts';
import { bareIn, drafts, takeBack, undoWords } from './recording.ts';
import { askOf, changeTemplate, type Steps, sidesAsked, stepsFrom, templateOf } from './steps.ts';
import { sayChoice, sayChoices, stripWords, viewOf } from './words.ts';

let seq = 0;
function fact(kind: string, body: Body, more: Partial<Fact> = {}): Fact {
  seq += 1;
  const id = `e${String(seq).padStart(4, '0')}`;
  return {
    id,
    kind,
    device: 'a',
    seq,
    at: seq * 1000,
    pos: seq,
    base: seq - 1,
    by: 'sam',
    via: null,
    body,
    ...more,
  };
}
function steps(template: string, count: number | null = 164, more: Partial<Steps> = {}): Steps {
  const found = templateOf(template);
  if (!found) throw new Error(template);
  return { ...stepsFrom(found, count), ...more };
}
function part(asked: Steps, ...facts: Fact[]): State {
  const first = [fact('part.added.v1', { name: 'Rib 4' }), fact('steps.set.v1', asked)];
  return fold([...first, ...facts]);
}
const step = (op: string, result = 'all', more: Body = {}, about: Partial<Fact> = {}): Fact =>
  fact('step.recorded.v1', { op, result, done: null, of: null, ...more }, about);
const main = (state: State, asked: string | null = null): Choice[] => {
  const ground = groundOfPart(state);
  return mainOps(ground, nextOf(ground.strip, false), asked).map((op) => allOf(ground, op));
};
const said = (state: State, asked: string | null = null): string =>
  sayChoices(groundOfPart(state), main(state, asked));

describe('the main button', () => {
  it('says what one tap records, and records just that', () => {
    const state = part(steps('rib'), step('form'));
    expect(said(state)).toBe('Edges dressed: all');
    expect(said(state, 'dimple')).toBe('Dimpled: all 164');
    expect(main(state, 'dimple').map(bodyOf)).toEqual([
      { op: 'dimple', result: 'all', done: 164, of: 164 },
    ]);
  });

  it('names both sides as recorded, and one side where only that is open', () => {
    const asked = steps('rib');
    expect(main(part(asked), 'deburr')[0]?.sides).toEqual(['inside', 'outside']);
    const half = part(asked, step('deburr', 'all', { done: 164, of: 164, sides: ['inside'] }));
    expect(said(half, 'deburr')).toBe('Deburred: all 164, outside');
    expect(bodyOf(main(half, 'deburr')[0] as Choice).sides).toEqual(['outside']);
  });

  it('speaks only of the faces that are asked for', () => {
    expect(said(part(steps('skin flush')), 'prime')).toBe('Primed: inside');
  });

  it('T3: rivets 148 of 164 where 16 stay open on purpose, and then fills the 16', () => {
    const open = [{ n: 16, fills: 'nut plates' }];
    const asked = steps('rib', 164, { open });
    const state = part(asked);
    expect(said(state, 'rivet')).toBe('Riveted: 148 of 164, 16 left open for the nut plates');
    const body = bodyOf(settle(main(state, 'rivet')[0] as Choice));
    expect(body).toEqual({ op: 'rivet', result: 'all', done: 148, of: 164, open });
    const riveted = part(asked, fact('step.recorded.v1', body));
    expect(riveted.marks?.rivet).toMatchObject({ is: 'done', done: 148, of: 164, open: 16 });
    expect(said(riveted, 'rivet')).toBe('Riveted: all 164');
  });

  it('says only all where the holes are not counted', () => {
    expect(said(part(steps('rib', null)), 'dimple')).toBe('Dimpled: all');
    const open = [{ n: 16, fills: 'nut plates' }];
    expect(said(part(steps('rib', null, { open })), 'rivet')).toBe(
      'Riveted: all but 16 left open for the nut plates',
    );
  });

  it('counts the pieces of a bag where an operation is not on holes', () => {
    const state = fold([
      fact('part.added.v1', { name: 'Clip', pieces: 12 }),
      fact('steps.set.v1', steps('bag', 2)),
    ]);
    expect(said(state, 'edges')).toBe('Edges dressed: all 12');
  });

  it('takes film, edges and holes of a small part in one tap, and cleaned with primed', () => {
    const asked = steps('small clip', 4);
    const state = part(asked);
    expect(said(state)).toBe('Film off, edges dressed and deburred: all');
    expect(main(state).map((choice) => choice.op)).toEqual(['film', 'edges', 'deburr']);
    const facts = main(state).map((choice) => fact('step.recorded.v1', bodyOf(settle(choice))));
    const after = part(asked, ...facts);
    expect(after.flags).toEqual([]);
    expect(said(after)).toBe('Cleaned and primed: all');
    const cleaned = part(asked, ...facts, step('clean', 'all', { sides: ['inside', 'outside'] }));
    expect(said(cleaned)).toBe('Primed: all');
    expect(said(state, 'edges')).toBe('Edges dressed: all');
  });

  it('leaves out of the one tap what is not ready', () => {
    const asked = askOf(askOf(steps('small clip', 4), 'fit', 'do'), 'drill', 'do');
    const piloted = { ...asked, holes: { count: 4, supplied: 'pilot' as const } };
    expect(said(part(piloted))).toBe('Film off and edges dressed: all');
  });

  it('says along the lines where the film stays on elsewhere, and touched up where primer was cut', () => {
    expect(said(part(steps('skin flush')), 'film')).toBe('Film off along the lines: all');
    const primed = part(
      steps('rib'),
      step('prime'),
      fact('metal.changed.v1', { change: 'touched' }),
    );
    expect(said(primed, 'prime')).toBe('Primer touched up: all');
  });

  it('uses the number of holes after some were added', () => {
    const state = part(
      steps('rib'),
      step('deburr', 'all', { done: 164, of: 164 }),
      fact('metal.changed.v1', { change: 'holes added', holes: 4 }),
    );
    expect(said(state, 'deburr')).toBe('Deburred: all 168');
  });

  it('names the die that the part asks for', () => {
    const state = part(steps('rib', 10, { die: '3/32 spring back' }));
    expect(bodyOf(main(state, 'dimple')[0] as Choice).die).toBe('3/32 spring back');
  });
});

describe('doubt and bare metal', () => {
  it('asks instead of offering where a countersink may have been done', () => {
    const asked = steps('thick countersunk', 20);
    const one = step('countersink', 'all', { done: 20, of: 20 }, { device: 'a', base: 0 });
    const other = step('countersink', 'none', { done: 0, of: 20 }, { device: 'b', base: 0 });
    const state = part(asked, one, other);
    const ground = groundOfPart(state);
    expect(inDoubt(ground, 'countersink', null)).toBe(true);
    expect(mainOps(ground, nextOf(ground.strip, false), 'countersink')).toEqual(['countersink']);
    const looked = part(asked, one, other, step('countersink', 'all', { looked: true }));
    expect(inDoubt(groundOfPart(looked), 'countersink', null)).toBe(false);
  });

  it('T2: knows that a choice would work on a face that stays bare, and opens a finding with it', () => {
    const state = part(steps('bonding face', 8));
    const ground = groundOfPart(state);
    const both: Choice = { ...allOf(ground, 'prime'), sides: ['inside', 'outside'] };
    expect(
      bareIn(ground, [allOf(ground, 'prime')], { id: 'p', name: 'Rib 4' }, () => undefined),
    ).toEqual([]);
    const bare = bareIn(ground, [both], { id: 'p', name: 'Rib 4' }, () => undefined);
    expect(bare).toEqual([{ part: 'p', name: 'Rib 4', op: 'prime', where: 'prime outside' }]);
    expect(drafts('p', [both], bare, null, () => 'new')).toEqual([
      { kind: 'step.recorded.v1', subject: 'p', via: null, body: bodyOf(both) },
      {
        kind: 'finding.opened.v1',
        subject: 'new',
        via: null,
        body: { on: 'p', what: 'Primed where it should stay bare', op: 'prime' },
      },
    ]);
  });

  it('asks the steps of a layer before a line is dimpled', () => {
    const ground = groundOfPart(part(steps('rib')));
    const choice: Choice = { ...allOf(ground, 'dimple'), layer: 'steel' };
    const layer = { name: 'Horn', steps: steps('coated steel', 4) };
    expect(bareIn(ground, [choice], null, () => layer)).toEqual([
      { part: 'steel', name: 'Horn', op: 'dimple', where: 'dimple' },
    ]);
  });
});

describe('some', () => {
  const ground = groundOfPart(part(steps('rib')));
  const some = (done: number | null): Choice => ({
    ...allOf(ground, 'deburr'),
    result: 'some',
    done,
  });

  it('is said in figures', () => {
    expect(sayChoice(ground, some(120))).toBe('Deburred: 120 of 164');
    expect(sayChoice(ground, { ...some(120), sides: ['outside'] })).toBe(
      'Deburred: 120 of 164, outside',
    );
    expect(sayChoice(ground, { ...some(120), of: null })).toBe('Deburred: 120');
  });

  it('is recorded as all or none where the figure says so', () => {
    expect(settle(some(164)).result).toBe('all');
    expect(settle(some(0)).result).toBe('none');
    expect(settle({ ...some(3), result: 'none' })).toMatchObject({ done: 0 });
  });

  it('refuses more than there are, and holes left open for nothing', () => {
    expect(wrongWithChoice(some(165))).toContain('165 is more than the 164');
    expect(wrongWithChoice({ ...some(4), sides: [] })).toContain('side');
    expect(wrongWithChoice({ ...some(4), open: [{ n: 2, fills: ' ' }] })).toContain(
      'what will fill',
    );
    expect(wrongWithChoice(some(120))).toBe('');
  });
});

describe('undo', () => {
  it('is worded as the thing done, and takes the last entry back first', () => {
    expect(undoWords('Dimpled: all 164')).toBe('Undo: Dimpled all 164');
    const entries = [
      { event: '1', subject: 'p' },
      { event: '2', subject: 'f' },
    ];
    expect(takeBack(entries).map((draft) => draft.body.event)).toEqual(['2', '1']);
  });
});

describe('a strip in words', () => {
  const at = (op: string): number =>
    ['form', 'film', 'edges', 'fit', 'drill', 'deburr'].indexOf(op);

  it('says how far an operation is', () => {
    const state = part(steps('rib'), step('deburr', 'some', { done: 120, of: 164 }));
    const view = viewOf(groundOfPart(state), at('deburr'), state.strip?.[5] ?? '');
    expect(view).toMatchObject({ letter: 'p', beneath: '120', words: 'Deburr: 120 of 164' });
  });

  it('tells the sides apart where they differ', () => {
    const state = part(steps('rib'), step('deburr', 'all', { sides: ['inside'], of: 164 }));
    const view = viewOf(groundOfPart(state), at('deburr'), 'p');
    expect(view).toMatchObject({ beneath: '1/2', words: 'Deburr: inside all 164, outside to do' });
  });

  it('says what the rivet lines add', () => {
    const view = viewOf(
      groundOfPart(part(steps('rib'), step('deburr', 'all', { of: 4 }))),
      5,
      'p',
      ['rear spar to do'],
    );
    expect(view.words).toBe('Deburr: all 4; rear spar to do');
  });

  it('is read as sentences in a list', () => {
    expect(stripWords('-ddt-p---b-')).toBe(
      'Done: film off, edges. Partly: deburr. To do: trial fit. Keep bare: prime.',
    );
    expect(stripWords('-----------')).toBe('Nothing is needed.');
  });
});

describe('what a part needs', () => {
  it('keeps the count and what is open when the template changes', () => {
    const open = [{ n: 2, fills: 'a bolt' }];
    const changed = changeTemplate(steps('rib', 30, { open }), templateOf('coated steel') as never);
    expect(changed).toMatchObject({
      template: 'coated steel',
      open,
      holes: { count: 30, supplied: 'final' },
    });
  });

  it('writes one word where the sides agree and two where they differ', () => {
    const differ = askOf(steps('rib'), 'prime', 'do', 'bare');
    expect(sidesAsked(differ, 'prime')).toEqual(['do', 'bare']);
    expect(differ.ops.prime).toBeUndefined();
    expect(askOf(differ, 'prime', 'not').ops).toMatchObject({ prime: 'not' });
    expect('prime:inside' in askOf(differ, 'prime', 'not').ops).toBe(false);
  });

  it('puts deburring and dimpling before the drill where the final size comes after dimpling', () => {
    const fitted = part(steps('skin flush', 10), step('film'), step('edges'), step('fit'));
    expect(nextOf(fitted.strip ?? '', false)).toBe('drill');
    expect(nextOf(fitted.strip ?? '', true)).toBe('deburr');
    const deburred = part(
      steps('skin flush', 10),
      step('film'),
      step('edges'),
      step('fit'),
      step('deburr'),
    );
    expect(nextOf(deburred.strip ?? '', true)).toBe('dimple');
  });
});
