import { describe, expect, test } from 'vitest';
import type { Row } from '../../store/rows.ts';
import { cutDoubt, madeFrom } from './doubt.ts';
import { type CutAct, cutDrafts, uncut } from './recording.ts';
import { boxRing } from './rings.ts';

const IN = 25_400_000;
const L = (nm: number) => ({ nm, text: `${nm / IN}` });
const act: CutAct = {
  offcut: 'whole',
  fields: {
    name: 'Door',
    alloy: '2024',
    temper: 'T3',
    clad: 'clad',
    form: 'sheet',
    thickness: L(812_800),
    measured: 'bare',
    known_by: 'mill marking',
    grain: 'b',
    note: 'bent corner',
  },
  made: [{ part: 'clip', name: 'Clip', outline: boxRing(0, 0, IN, IN) }],
  keeps: [
    {
      id: 'rest',
      shape: { kind: 'rectangle', a: L(8 * IN), b: L(4 * IN) },
      tag: { code: '0123456789', on: 'metal' },
    },
  ],
  place: 'rack',
  kerf: 0,
  dust: 5,
  recycled: 7,
  length: false,
  also: [{ kind: 'part.added.v1', subject: 'clip', body: { name: 'Clip' } }],
};

describe('what is recorded', () => {
  test('the cut first, then what stays with all that is known of the metal', () => {
    const [cut, added, tag, moved, part] = cutDrafts(act);
    expect(cut).toMatchObject({
      kind: 'offcut.cut.v1',
      subject: 'whole',
      body: { remnants: ['rest'], kerf_nm: 0, dust_um2: 5, recycled_um2: 7 },
    });
    expect(added?.body).toMatchObject({
      alloy: '2024',
      known_by: 'mill marking',
      measured: 'bare',
      grain: 'b',
      parent: 'whole',
    });
    expect(Object.keys(added?.body ?? {})).not.toContain('name');
    expect(Object.keys(added?.body ?? {})).not.toContain('note');
    expect(tag).toMatchObject({ kind: 'tag.attached.v1', subject: 'rest' });
    expect(moved).toMatchObject({ kind: 'thing.moved.v1', body: { to: 'rack' } });
    expect(part?.subject).toBe('clip');
  });
  test('a length says what was lost of it in nm', () => {
    const [cut] = cutDrafts({ ...act, length: true, keeps: [], place: '', also: [] });
    expect(cut?.body).toMatchObject({ dust_nm: 5, recycled_nm: 7 });
    expect(Object.keys(cut?.body ?? {})).not.toContain('dust_um2');
  });
  test('taking it back takes back all that was entered with it, each thing once', () => {
    const cut = {
      event: 'e',
      at: 1,
      by: 'p',
      made: [{ part: 'clip', name: 'Clip' }],
      remnants: ['rest'],
    };
    const retire = {
      kind: 'thing.retired.v1',
      subject: 'clip',
      body: { why: 'entered by mistake' },
    };
    const met = { kind: 'piece.met.v1', subject: 'wanted', body: { part: null } };
    const drafts = uncut('whole', cut, [met, retire]);
    expect(drafts[0]).toMatchObject({
      kind: 'event.withdrawn.v1',
      subject: 'whole',
      body: { event: 'e' },
    });
    expect(drafts.map(({ subject }) => subject)).toEqual(['whole', 'rest', 'wanted', 'clip']);
    expect(uncut('whole', cut, []).map(({ subject }) => subject)).toEqual([
      'whole',
      'rest',
      'clip',
    ]);
  });
});

describe('what has to be measured again', () => {
  const offcut = (id: string, fields: object, more: Partial<Row> = {}): Row =>
    ({ id, fields, retired: false, ...more }) as unknown as Row;
  const cut = (at: number, ...remnants: string[]) => ({
    event: `e${at}`,
    at,
    by: 'p',
    made: [{ part: `part ${at}`, name: 'Clip' }],
    remnants,
  });
  const doubt = (rest: Row, whole?: Row) =>
    cutDoubt(rest, (id) => (id === 'whole' ? whole : undefined));
  const rest = offcut('rest', { parent: 'whole' });

  test('nothing after one cut, nor where the whole is not on this phone', () => {
    expect(doubt(rest, offcut('whole', { cut: [cut(5, 'rest')] }))).toBe('');
    expect(doubt(rest)).toBe('');
    expect(doubt(offcut('lone', {}))).toBe('');
  });
  test('both sides of two cuts, until one is measured after the last', () => {
    const whole = offcut('whole', {
      cut: [cut(5, 'rest'), cut(9, 'other')],
      cut_doubt: 'cut twice',
    });
    expect(doubt(whole)).toBe('cut twice');
    expect(doubt(rest, whole)).toBe('cut twice');
    const at = (sized_at: number) => offcut('rest', { parent: 'whole', sized_at });
    expect(doubt(at(9), whole)).toBe('cut twice');
    expect(doubt(at(10), whole)).toBe('');
  });
  test('a remnant whose cut was taken back', () => {
    expect(doubt(rest, offcut('whole', {}))).toBe('cut taken back');
    expect(doubt(rest, offcut('whole', {}, { retired: true }))).toBe('');
  });
  test('a part finds the offcut that it was cut from', () => {
    const whole = offcut('whole', { cut: [cut(5), cut(9)] });
    expect(madeFrom('part 9', [rest, whole])?.cut.at).toBe(9);
    expect(madeFrom('part 1', [rest, whole])).toBeUndefined();
  });
});
