// From choices to what is written: the steps, and a finding where a bare place was worked on.
import type { Draft } from '../store/outbox.ts';
import { partWants } from '../twins/marks.ts';
import { bareKeys, bodyOf, type Choice, type Ground, settle } from './choices.ts';
import { keyWords } from './flags.ts';
import { operation, type Steps } from './steps.ts';

export interface Bare {
  part: string; // the part that should stay bare there
  name: string;
  op: string;
  where: string; // "prime inside"
}

// Where the choices would work on metal that is to stay bare: on a part itself, or on the layers
// of a rivet line, whose own steps are asked.
export function bareIn(
  ground: Ground,
  choices: Choice[],
  part: { id: string; name: string } | null,
  layerSteps: (id: string) => { name: string; steps: Steps | null } | undefined,
): Bare[] {
  return choices.flatMap((choice): Bare[] => {
    if (part) {
      const keys = bareKeys(ground, choice);
      const where = keys.map(keyWords).join(' and ');
      return keys.length ? [{ part: part.id, name: part.name, op: choice.op, where }] : [];
    }
    const layer = choice.layer ? layerSteps(choice.layer) : undefined;
    if (!choice.layer || !layer || choice.result === 'none') return [];
    const wants = partWants(layer.steps);
    const bare = Object.keys(wants).filter(
      (key) => key.split(':')[0] === choice.op && wants[key] === 'bare',
    );
    const where = operation(choice.op).name;
    return bare.length ? [{ part: choice.layer, name: layer.name, op: choice.op, where }] : [];
  });
}

// The events of one tap, all recorded together or not at all.
export function drafts(
  subject: string,
  choices: Choice[],
  bare: Bare[],
  via: string | null,
  newId: () => string,
): Draft[] {
  const steps = choices.map((choice) => ({
    kind: 'step.recorded.v1',
    subject,
    via,
    body: bodyOf(settle(choice)),
  }));
  const findings = bare.map(({ part, op }) => ({
    kind: 'finding.opened.v1',
    subject: newId(),
    via,
    body: { on: part, what: `${operation(op).done_word} where it should stay bare`, op },
  }));
  return [...steps, ...findings];
}

// Takes entries back, each from the thing it was about.
export function takeBack(entries: { event: string; subject: string }[]): Draft[] {
  return [...entries].reverse().map(({ event, subject }) => ({
    kind: 'event.withdrawn.v1',
    subject,
    body: { event },
  }));
}

// "Undo: Dimpled all 164"
export function undoWords(label: string): string {
  return `Undo: ${label.replace(': ', ' ')}`;
}
