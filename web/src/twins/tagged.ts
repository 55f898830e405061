// Twin of the tags in events/fold.py: the codes a thing answers to. Part of the fold twin.
import { order, type Told } from './facts.ts';
import type { Answer, State, Tag } from './fold.ts';

// A claim that lost stays an open answer until settled.
export function tags(told: Told[], state: State): void {
  const held = new Map<string, Tag>();
  const lost = new Map<string, Answer>();
  const on = new Map<string, string>();
  for (const fact of told) {
    const { kind, body } = fact;
    const code = String(body.code);
    if (kind === 'tag.attached.v1') {
      on.set(code, String(body.on));
      lost.delete(code);
      if (fact.lost === undefined) held.set(code, { code, on: String(body.on), old: false });
      else {
        const values = [{ event: fact.id, by: fact.by, value: fact.lost }];
        lost.set(code, { about: 'tag', code, values });
      }
    } else if (kind === 'tag.replaced.v1') {
      const old = held.get(String(body.old));
      if (old) held.set(old.code, { ...old, old: true });
    } else if (kind === 'answer.settled.v1') {
      lost.delete(code);
      if (body.holds) held.set(code, { code, on: on.get(code) ?? 'metal', old: false });
      else held.delete(code);
    }
  }
  state.tags = [...held.keys()].sort(order).map((code) => held.get(code) as Tag);
  for (const code of [...lost.keys()].sort(order)) state.answers.push(lost.get(code) as Answer);
}
