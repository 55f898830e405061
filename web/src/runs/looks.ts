// The looks that a run takes at a part before it records: each says nothing, or why to stop. Pure.
import { keyWords } from '../parts/flags.ts';
import { operation } from '../parts/steps.ts';
import { listed, markWords } from '../parts/words.ts';
import { keysOf, type Mark, OPERATIONS, opOf } from '../twins/marks.ts';
import type { Asked, Offered, Said, Verdict, Way, Why } from './judge.ts';
import { lapsed, type Missing } from './order.ts';

type Look = (asked: Asked) => Verdict | null;

// in the order of what it would cost to be wrong
export const LOOKS: Look[] = [wrongHand, elsewhere, keepBare, inDoubt, done, notNeeded, filmTag];

function marksAsked({ plan, part, choice }: Asked): [string, Mark][] {
  return keysOf(operation(plan.op), null, choice.sides).flatMap((key): [string, Mark][] => {
    const mark = part.ground.marks[key];
    return mark ? [[key, mark]] : [];
  });
}

function pass(said: Said, why: Why, more: Partial<Said> = {}): Said {
  return { ...said, ...more, passed: [...said.passed, why] };
}

const doneWord = (op: string): string => operation(op).done_word.toLowerCase();

function wrongHand({ part, soFar, said }: Asked): Verdict | null {
  if (!soFar.hand || !part.hand || part.hand === soFar.hand) return null;
  if (said.passed.includes('wrong hand')) return null;
  return {
    is: 'stop',
    why: 'wrong hand',
    title: `Wrong hand: ${part.name}`,
    text: `This run is ${soFar.hand} hand, and this part is ${part.hand} hand. Nothing is recorded of it.`,
    leave: 'Put it aside',
    ways: [
      { label: `Record this ${part.hand} one too`, said: pass(said, 'wrong hand') },
      { label: 'Either hand from here on', said: pass(said, 'wrong hand'), lifts: 'hand' },
    ],
  };
}

/** Drilled where it belongs, it fits there only. */
export function isBound({ station, ground, lines }: Offered): boolean {
  const at = OPERATIONS.findIndex((row) => row.op === 'drill');
  const strips = [ground.strip, ...lines.map((line) => line.strip)];
  return Boolean(station?.trim()) && strips.some((strip) => 'dpal'.includes(strip[at] ?? '-'));
}

function elsewhere({ plan, part, soFar, said }: Asked): Verdict | null {
  if (said.passed.includes('elsewhere') || !isBound(part)) return null;
  const same = (one: string, other: string): boolean =>
    one.trim().toLowerCase() === other.trim().toLowerCase();
  const station = plan.station !== '' && !same(plan.station, part.station ?? '');
  const assembly =
    plan.assembly !== null &&
    part.assemblies.length > 0 &&
    !part.assemblies.includes(plan.assembly);
  if (!station && !assembly) return null;
  const meant = assembly ? soFar.assemblyName : `station ${plan.station}`;
  return boundElsewhere(part, meant, said);
}

/** The stop for a part that was drilled at its station and is offered somewhere else. */
export function boundElsewhere(
  part: { name: string; station: string | null },
  meant: string,
  said: Said,
): Verdict & { is: 'stop' } {
  return {
    is: 'stop',
    why: 'elsewhere',
    title: `${part.name} belongs at ${part.station}`,
    text: `Its holes were drilled at station ${part.station}, so it fits there only. This run is for ${meant}. Nothing is recorded of it.`,
    leave: 'Put it aside',
    ways: [{ label: 'Record it anyway', said: pass(said, 'elsewhere') }],
  };
}

function keepBare(asked: Asked): Verdict | null {
  const { plan, part, said, choice } = asked;
  if (said.passed.includes('bare')) return null;
  const row = operation(plan.op);
  // a face that stays bare is named even where the run would record only the other one
  const keys =
    row.sided && plan.sides === null
      ? keysOf(row, null, null)
      : marksAsked(asked).map(([key]) => key);
  const bare = keys.filter((key) => part.ground.marks[key]?.want === 'bare');
  if (!bare.length) return null;
  const side = (key: string): string => key.split(':')[1] ?? '';
  const free = (choice.sides ?? []).filter((one) => !bare.some((key) => side(key) === one));
  const every = row.sided ? [...new Set([...free, ...bare.map(side)])] : null;
  const anyway = pass(said, 'bare', { finding: true, ...(every ? { sides: every } : {}) });
  const ways: Way[] = [{ label: 'Done all the same: record it', said: anyway }];
  if (row.sided && free.length)
    ways.unshift({
      label: `Only the ${free[0]}: record that`,
      said: pass(said, 'bare', { sides: free }),
    });
  const where = listed(bare.map(keyWords));
  return {
    is: 'stop',
    why: 'bare',
    title:
      free.length && row.sided
        ? `Keep the ${side(bare[0] ?? '')} of ${part.name} bare`
        : `Keep ${part.name} bare`,
    text: `Its steps say to keep it bare: ${where}. Nothing is recorded yet. Where it was done all the same, a finding is opened with it.`,
    leave: 'Put it aside',
    ways,
  };
}

function inDoubt(asked: Asked): Verdict | null {
  const { plan, part, said } = asked;
  if (said.passed.includes('look')) return null;
  const last = OPERATIONS.findIndex((row) => row.op === plan.op);
  const doubted = Object.entries(part.ground.marks).find(
    ([key, mark]) =>
      mark.is === 'look' && OPERATIONS.findIndex((row) => row.op === opOf(key)) <= last,
  );
  if (!doubted) return null;
  const op = opOf(doubted[0]);
  const own = op === plan.op;
  return {
    is: 'stop',
    why: 'look',
    title: `Look at ${part.name}`,
    text: `The record does not say whether it was ${doneWord(op)}, and doing that twice can cost the part. Look before you go on. Nothing is recorded of it.`,
    leave: 'Put it aside',
    ways: [
      own
        ? {
            label: `I looked: all of it is ${doneWord(op)}`,
            said: pass(pass(said, 'look', { looked: true }), 'harmful'),
          }
        : { label: `Record ${doneWord(plan.op)} anyway`, said: pass(said, 'look') },
    ],
  };
}

function done(asked: Asked): Verdict | null {
  const { plan, part, said } = asked;
  const { harmful } = operation(plan.op);
  const marks = marksAsked(asked).map(([, mark]) => mark);
  if (harmful) {
    const begun = marks.find((mark) => mark.is === 'done' || mark.is === 'part');
    if (!begun || said.passed.includes('harmful')) return null;
    return doneHarmful(part, plan.op, begun, said);
  }
  const wanted = marks.filter((mark) => mark.want === 'do');
  const all = wanted.length ? wanted : marks;
  if (said.passed.includes('done') || !all.length || !all.every((mark) => mark.is === 'done'))
    return null;
  return {
    is: 'say',
    why: 'done',
    sentence: `${part.name} was ${doneWord(plan.op)} before. Nothing is recorded.`,
    again: pass(said, 'done'),
    label: 'Record it again',
  };
}

function doneHarmful(part: Offered, op: string, mark: Mark, said: Said): Verdict {
  const word = doneWord(op);
  const whole = mark.is === 'done';
  const title = whole ? `${part.name} is ${word} already` : `${part.name} is partly ${word}`;
  const text = whole
    ? 'Doing it again can cost the part. Nothing is recorded.'
    : `So far: ${markWords(mark)}. Do only those that are left: doing one twice can cost the part. Nothing is recorded yet.`;
  return {
    is: 'stop',
    why: 'harmful',
    title,
    text,
    leave: 'Put it aside',
    ways: [
      {
        label: whole ? 'Record it again all the same' : `Now all of it is ${word}: record that`,
        said: pass(said, 'harmful'),
      },
    ],
  };
}

function notNeeded(asked: Asked): Verdict | null {
  const { plan, part, said } = asked;
  if (said.passed.includes('not needed')) return null;
  const marks = marksAsked(asked);
  if (marks.some(([, mark]) => mark.want === 'do') || said.passed.includes('bare')) return null;
  const at = OPERATIONS.findIndex((row) => row.op === plan.op);
  const lines = part.lines.filter((line) => 'tpal'.includes(line.strip[at] ?? '-'));
  if (lines.length)
    return inLines(
      part,
      plan.op,
      lines.map((line) => line.name),
    );
  const { name, harmful } = operation(plan.op);
  const again = pass(said, 'not needed');
  const told = part.steps
    ? `The steps of ${part.name} do not ask for ${name}.`
    : `Nothing is said yet of what ${part.name} needs.`;
  if (!harmful)
    return {
      is: 'say',
      why: 'not needed',
      sentence: `${told} Nothing is recorded.`,
      again,
      label: 'Record it anyway',
    };
  return {
    is: 'stop',
    why: 'not needed',
    title: `Do not ${name} ${part.name}`,
    text: `${told} It cannot be undone. Nothing is recorded.`,
    leave: 'Put it aside',
    ways: [{ label: 'Done all the same: record it', said: again }],
  };
}

function inLines(part: Offered, op: string, lines: string[]): Verdict {
  const where = `${lines.length > 1 ? 'the rivet lines' : 'the rivet line'} ${listed(lines)}`;
  return {
    is: 'say',
    why: 'in lines',
    sentence: `The holes of ${part.name} that are to ${operation(op).name} are in ${where}: record it there. Nothing is recorded.`,
    again: null,
    label: '',
  };
}

function filmTag({ plan, part, soFar, said }: Asked): Verdict | null {
  if (plan.op !== 'film' || !part.tagOnFilm || soFar.filmTagsSafe) return null;
  if (said.passed.includes('tag on film')) return null;
  const on = pass(said, 'tag on film');
  return {
    is: 'stop',
    why: 'tag on film',
    title: 'The tag is on the film',
    text: `${part.tagOnFilm} is on the film of ${part.name}. Put the tag on the metal or tie it on before the film is thrown away.`,
    leave: 'Not yet',
    ways: [
      { label: 'The tag is safe: record film off', said: on },
      { label: 'All tags of this run are safe', said: on, lifts: 'film' },
    ],
  };
}

export function outOfOrder({ plan, part, said }: Asked, missing: Missing[]): Verdict {
  const late = missing.find((one) => one.lapsedH !== null);
  const open = listed([...new Set(missing.filter((one) => one !== late).map((one) => one.words))]);
  const sentences = [
    open ? `Not done yet, and it comes first: ${open}.` : '',
    late ? lapsed(late) : '',
    'Nothing is recorded yet.',
  ];
  return {
    is: 'stop',
    why: 'order',
    title: `Not yet: ${part.name}`,
    text: sentences.filter(Boolean).join(' '),
    leave: 'Put it aside',
    ways: [{ label: `Record ${doneWord(plan.op)} anyway`, said: pass(said, 'order') }],
  };
}
