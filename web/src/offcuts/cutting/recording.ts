// What is recorded when an offcut is cut, all or nothing; and when it was not cut after all. Pure.
import type { Draft } from '../../store/outbox.ts';
import { attached, type On } from '../../tags/attaching.ts';
import type { Cut } from '../../twins/cuts.ts';
import type { Body } from '../../twins/facts.ts';
import type { Fields } from '../piece.ts';
import type { Run } from '../sections/section.ts';
import type { Shape } from './leaves.ts';
import type { Ring } from './rings.ts';

/** A piece that stays, as it will be entered. */
export interface ToKeep {
  id: string;
  shape: Shape | Run;
  tag: { code: string; on: On } | null;
}
/** A piece that was made: by its corners on the offcut, or its length (nm). */
export interface MadePiece {
  part: string | null;
  name: string;
  outline?: Ring;
  length?: number;
}
export interface CutAct {
  offcut: string;
  fields: Fields;
  made: MadePiece[];
  keeps: ToKeep[];
  /** where what stays is put; '' for nowhere known */
  place: string;
  kerf: number;
  /** um2 of sheet, nm of section stock */
  dust: number;
  recycled: number;
  length: boolean;
  /** the part that it becomes, the piece that it meets, the rivets that change with it */
  also: Draft[];
}

// What a remnant is, it is because the offcut was: nobody measured or saw it anew.
const COPIED = [
  'alloy',
  'temper',
  'clad',
  'form',
  'section',
  'thickness',
  'measured',
  'known_by',
  'grain',
] as const;

/** The cut first, so that a tag of what was cut is free for what is left of it. */
export function cutDrafts(act: CutAct): Draft[] {
  const { offcut, fields, made, keeps, place, kerf, dust, recycled, length, also } = act;
  const lost = length
    ? { dust_nm: dust, recycled_nm: recycled }
    : { dust_um2: dust, recycled_um2: recycled };
  const body = {
    made: made.map((one) => ({ ...one })),
    remnants: keeps.map(({ id }) => id),
    kerf_nm: kerf,
    ...lost,
  } as unknown as Body;
  const copied = Object.fromEntries(
    COPIED.flatMap((name) => (fields[name] === undefined ? [] : [[name, fields[name]]])),
  );
  return [
    { kind: 'offcut.cut.v1', subject: offcut, body },
    ...keeps.flatMap(({ id, shape, tag }): Draft[] => [
      {
        kind: 'offcut.added.v1',
        subject: id,
        body: { ...copied, shape, parent: offcut } as unknown as Body,
        via: tag?.code ?? null,
      },
      ...(tag ? [attached(id, tag.code, tag.on)] : []),
      ...(place ? [{ kind: 'thing.moved.v1', subject: id, body: { to: place } }] : []),
    ]),
    ...also,
  ];
}

/**
 * The cut was not made: the offcut is whole again, and what was entered with it goes. `unmade` takes
 * back the parts that met a piece wanted; the others are simply entered by mistake.
 */
export function uncut(offcut: string, cut: Cut, unmade: readonly Draft[]): Draft[] {
  const gone = new Set(unmade.map(({ subject }) => subject));
  const parts = new Set(cut.made.flatMap(({ part }) => part ?? []));
  const mistaken = [...cut.remnants, ...parts].filter((id) => !gone.has(id));
  return [
    { kind: 'event.withdrawn.v1', subject: offcut, body: { event: cut.event } },
    ...mistaken.map(
      (subject): Draft => ({
        kind: 'thing.retired.v1',
        subject,
        body: { why: 'entered by mistake' },
      }),
    ),
    ...unmade,
  ];
}
