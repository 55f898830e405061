// What is said above the main button before it is tapped: what should come first, and what should
// not be done at all. Nothing is refused for it.
import { type Choice, type Ground, marksOf } from './choices.ts';
import { operation } from './steps.ts';
import { listed } from './words.ts';

const HOUR_MS = 3_600_000;

// Sentences about one choice. `now` is UTC ms.
export function notesBefore(
  ground: Ground,
  choice: Choice,
  besides: string[],
  now: number,
): string[] {
  const wants = marksOf(ground, choice.op, choice.layer).map(([, mark]) => mark.want);
  if (wants.every((want) => want === 'bare')) return ['This part is to be kept bare here.'];
  const said = wants.every((want) => want !== 'do') ? ['This part does not need it.'] : [];
  const open = openBefore(ground, choice).filter((op) => !besides.includes(op));
  const names = open.map((op) => operation(op).name);
  if (names.length) said.push(`Usually after ${listed(names)}, not done yet.`);
  if (lapsed(ground, choice, now) && !besides.includes('clean'))
    said.push(`Cleaned more than ${ground.windowH} hours ago: clean it again first.`);
  return said;
}

// Does an earlier operation's mark speak of what the choice works on?
function concerns(choice: Choice, earlier: string, key: string): boolean {
  const faces = operation(choice.op).scope === 'face' && operation(earlier).scope === 'face';
  return !faces || (choice.sides ?? []).includes(key.split(':').pop() ?? '');
}

// The operations that usually come before and are asked for, but are not done.
function openBefore(ground: Ground, choice: Choice): string[] {
  return operation(choice.op).after.filter((earlier) => {
    const later = earlier === 'drill' && ['deburr', 'dimple'].includes(choice.op);
    if (ground.finalAfterDimple && later) return false;
    const layer = operation(earlier).scope.startsWith('layer') ? choice.layer : null;
    return marksOf(ground, earlier, layer).some(
      ([key, mark]) => concerns(choice, earlier, key) && mark.want === 'do' && mark.is !== 'done',
    );
  });
}

function lapsed(ground: Ground, choice: Choice, now: number): boolean {
  const { windowH } = ground;
  if (choice.op !== 'prime' || windowH === null) return false;
  return marksOf(ground, 'clean', null).some(
    ([key, { is, at }]) =>
      concerns(choice, 'clean', key) && is === 'done' && now - (at ?? now) > windowH * HOUR_MS,
  );
}
