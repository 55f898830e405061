// How far things are, and what a tap records, in words.
import type { Mark } from '../twins/marks.ts';
import { OPERATIONS, type Operation } from '../twins/marks.ts';
import { type Choice, type Ground, marksOf } from './choices.ts';
import { type LeftOpen, leftOpen, operation } from './steps.ts';

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function listed(words: string[], last = 'and'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
}

export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

// "16 left open for the nut plates"
export function openWords(open: LeftOpen[]): string {
  const fills = open.filter((hole) => hole.n > 0).map(({ fills }) => fills.replace(/^the /, ''));
  return `${leftOpen(open)} left open for the ${listed(fills)}`;
}

function resultWords({ result, done, of, open }: Choice): string {
  if (result === 'none') return 'none';
  if (result === 'some')
    return done === null ? 'some' : of === null ? `${done}` : `${done} of ${of}`;
  if (!leftOpen(open)) return of === null ? 'all' : `all ${of}`;
  return of === null ? `all but ${openWords(open)}` : `${done} of ${of}, ${openWords(open)}`;
}

// The word for it done: film that comes off along the lines, primer that is only touched up.
function doneWord(ground: Ground | null, choice: Choice): string {
  const row = operation(choice.op);
  if (choice.op === 'film' && ground?.alongLines) return 'Film off along the lines';
  const marks = ground ? marksOf(ground, choice.op, choice.layer).map(([, mark]) => mark) : [];
  const again = marks.some((mark) => mark.is === 'again');
  return choice.op === 'prime' && again ? 'Primer touched up' : row.done_word;
}

// What one choice records: "Dimpled: all 164", "Deburred: 120 of 164, outside".
export function sayChoice(ground: Ground | null, choice: Choice): string {
  const word = doneWord(ground, choice);
  const result = resultWords(choice);
  if (choice.sides?.length !== 1) return `${word}: ${result}`;
  const side = choice.sides[0];
  return result === 'all' ? `${word}: ${side}` : `${word}: ${result}, ${side}`;
}

// Several recorded by one tap: "Film off, edges dressed and deburred: all".
export function sayChoices(ground: Ground, choices: Choice[]): string {
  const [first, ...more] = choices;
  if (!first) return '';
  if (!more.length) return sayChoice(ground, first);
  const words = choices.map((choice, at) => {
    const word = doneWord(ground, choice);
    return at ? word.charAt(0).toLowerCase() + word.slice(1) : word;
  });
  return `${listed(words)}: all`;
}

// How far one target is, as it follows the operation's name: "120 of 164".
export function markWords(mark: Mark): string {
  const { done, of, open } = mark;
  switch (mark.is) {
    case 'not':
      return 'not needed';
    case 'bare':
      return 'keep bare';
    case 'todo':
      return 'to do';
    case 'look':
      return 'look at the part';
    case 'again':
      return done && of ? `do again, ${done} of ${of} still good` : 'do again';
    case 'part':
      return done === null ? 'partly' : of === null ? `${done} done` : `${done} of ${of}`;
    default:
      if (open)
        return of === null ? `all but ${open} left open` : `${done} of ${of}, ${open} left open`;
      return of === null ? 'done' : `all ${of}`;
  }
}

export const LETTER_WORDS: Record<string, string> = {
  d: 'done',
  p: 'partly',
  t: 'to do',
  a: 'do again',
  l: 'look at the part',
  b: 'keep bare',
  '-': 'not needed',
};

export interface View {
  row: Operation;
  letter: string; // as in a strip
  beneath: string; // what stands under the rivet
  words: string; // the accessible name: "Deburr: 120 of 164"
}

// One operation as the large strip shows it. `letter` may say less than the ground's own marks,
// where a rivet line of the part is behind; `lines` says so in words.
export function viewOf(ground: Ground, at: number, letter: string, lines: string[] = []): View {
  const row = OPERATIONS[at] as Operation;
  const marks = Object.entries(ground.marks).filter(([key]) => key.split(':')[0] === row.op);
  const told = marks.map(([key, mark]): [string, string] => [
    key.split(':').pop() ?? '',
    markWords(mark),
  ]);
  const same = new Set(told.map(([, words]) => words)).size === 1;
  let words = same ? (told[0]?.[1] ?? '') : told.map(([side, w]) => `${side} ${w}`).join(', ');
  if (!marks.length) words = LETTER_WORDS[letter] ?? '';
  const said = [words, ...lines].join('; ');
  return {
    row,
    letter,
    beneath: beneath(row, letter, marks),
    words: `${capital(row.name)}: ${said}`,
  };
}

function beneath(row: Operation, letter: string, marks: [string, Mark][]): string {
  if (letter === '-') return '–';
  if (letter === 'l') return '?';
  const words = marks.map(([, mark]) => mark).filter((mark) => mark.want === 'do' || mark.event);
  if (letter === 'd') return words.some((mark) => mark.open) ? String(words[0]?.done ?? '') : '';
  if (letter !== 'p') return '';
  const partly = words.filter((mark) => mark.is === 'part' && mark.done !== null);
  if (partly.length) return String(Math.min(...partly.map((mark) => mark.done ?? 0)));
  const done = words.filter((mark) => mark.is === 'done').length;
  return row.sided && words.length > 1 && done && done < words.length
    ? `${done}/${words.length}`
    : '';
}

// A whole strip in words, for those who hear it: "Done: film off, edges. To do: deburr."
export function stripWords(strip: string): string {
  const sentences = Object.entries(LETTER_WORDS)
    .filter(([letter]) => letter !== '-')
    .map(([letter, word]) => {
      const names = OPERATIONS.filter((_, at) => strip[at] === letter).map((row) => row.name);
      return names.length ? `${capital(word)}: ${names.join(', ')}.` : '';
    });
  return sentences.filter(Boolean).join(' ') || 'Nothing is needed.';
}
