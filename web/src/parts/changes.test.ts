import { describe, expect, it } from 'vitest';
import type { Draft } from '../store/outbox.ts';
import type { Fact } from '../twins/facts.ts';
import { fold, type State } from '../twins/fold.ts';
import {
  added,
  changedKeys,
  describedIn,
  metalChanged,
  NOTHING_KNOWN,
  splitOff,
  wrongWithDescription,
} from './changes.ts';
import { type Steps, stepsFrom, stepsOf, templateOf } from './steps.ts';

const CLIP = stepsFrom(templateOf('bag') as never, 2);
let seq = 0;
function folded(subject: string, ...drafts: Draft[]): State {
  const facts = drafts
    .filter((draft) => draft.subject === subject)
    .map(({ kind, body }): Fact => {
      seq += 1;
      return {
        id: `e${seq}`,
        kind,
        device: 'a',
        seq,
        at: seq,
        pos: seq,
        base: seq,
        by: 'sam',
        via: null,
        body,
      };
    });
  return fold(facts);
}
const step = (op: string, result: string, done: number | null, of: number | null): Draft => ({
  kind: 'step.recorded.v1',
  subject: 'bag',
  body: { op, result, done, of },
});

describe('a new part', () => {
  it('is one entry with its steps and its tag, all by that tag', () => {
    const described = { ...NOTHING_KNOWN, name: ' Rib 4 ', hand: 'left' as const };
    const drafts = added('p', described, CLIP, { code: '7K2QD0ABCD', on: 'film' });
    expect(drafts.map((draft) => draft.kind)).toEqual([
      'part.added.v1',
      'steps.set.v1',
      'tag.attached.v1',
    ]);
    expect(drafts.every((draft) => draft.subject === 'p' && draft.via === '7K2QD0ABCD')).toBe(true);
    expect(drafts[0]?.body).toEqual({ name: 'Rib 4', hand: 'left' });
    expect(added('p', described, CLIP, null)).toHaveLength(2);
  });

  it('is described anew by what changed only', () => {
    const was = { ...NOTHING_KNOWN, name: 'Rib 4', station: 'F12' };
    expect(changedKeys(was, { ...was, station: ' ', pieces: 2 })).toEqual({
      station: null,
      pieces: 2,
    });
    expect(changedKeys(was, { ...was, name: 'Rib 4 ' })).toEqual({});
    expect(describedIn(folded('p', ...added('p', was, CLIP, null)))).toEqual(was);
    expect(wrongWithDescription({ ...was, name: ' ' })).toContain('name');
    expect(wrongWithDescription({ ...was, pieces: 0 })).toContain('pieces');
    expect(wrongWithDescription(was)).toBe('');
  });
});

describe('pieces taken out of a bag', () => {
  const bag: Draft[] = added('bag', { ...NOTHING_KNOWN, name: 'Clip', pieces: 12 }, CLIP, null);

  it('leave the bag, need the same, and keep what was done to all of it', () => {
    const state = folded('bag', ...bag, step('edges', 'all', 12, 12), step('deburr', 'some', 1, 2));
    const drafts = splitOff({ id: 'bag', state }, 'out', 3, 'Clip, left row');
    const left = folded('bag', ...bag, ...drafts);
    const out = folded('out', ...drafts);
    expect(left.pieces).toBe(9);
    expect(out).toMatchObject({ name: 'Clip, left row', pieces: 3 });
    expect(stepsOf(out)).toEqual(CLIP);
    expect(out.marks?.edges).toMatchObject({ is: 'done', of: 3 });
    expect(out.marks?.['deburr:inside']?.is).toBe('todo');
  });

  it('are not called untouched where some of the bag may have been countersunk', () => {
    const asked: Steps = { ...CLIP, ops: { ...CLIP.ops, countersink: 'do' } };
    const first = added('bag', { ...NOTHING_KNOWN, name: 'Clip', pieces: 4 }, asked, null);
    const state = folded('bag', ...first, step('countersink', 'some', 1, 2));
    const out = folded('out', ...splitOff({ id: 'bag', state }, 'out', 1, 'Clip'));
    expect(out.marks?.countersink?.is).toBe('part');
  });
});

describe('a change of the metal', () => {
  const state = (steps: Steps): State => ({ steps }) as unknown as State;

  it('counts the holes of a rivet line too', () => {
    const line = { name: 'spar', count: 10 };
    const drafts = metalChanged('l', 'holes added', 2, '', { line } as unknown as State);
    expect(drafts[1]).toMatchObject({ kind: 'line.set.v1', subject: 'l', body: { count: 12 } });
  });

  it('counts added holes from then on, and stops counting where nobody knows how many', () => {
    const [change, steps] = metalChanged('p', 'holes added', 4, '', state(CLIP));
    expect(change?.body).toEqual({ change: 'holes added', holes: 4 });
    expect((steps as Draft & { body: Steps }).body.holes.count).toBe(6);
    const unknown = metalChanged('p', 'holes added', null, '', state(CLIP));
    expect((unknown[1] as Draft & { body: Steps }).body.holes.count).toBeNull();
  });

  it('says no more than is known of a trim or a scratch', () => {
    expect(metalChanged('p', 'trimmed', 3, ' at the flange ', state(CLIP))).toEqual([
      {
        kind: 'metal.changed.v1',
        subject: 'p',
        body: { change: 'trimmed', note: 'at the flange' },
      },
    ]);
    expect(metalChanged('p', 'holes enlarged', 1, '', state(CLIP))).toHaveLength(1);
  });
});
