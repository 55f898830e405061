// The tags of a thing, for its screen: the codes, how each is fixed, and the way to another one.
import type { State } from '../twins/fold.ts';
import { grouped } from '../twins/tagcode.ts';
import { liveTags, onWords } from './attaching.ts';
import './tags.css';

export function TagLines({ id, state }: { id: string; state: State }) {
  const live = liveTags(state);
  const old = state.tags.filter((tag) => tag.old);
  return (
    <section class="tag-lines" aria-label="Tags">
      <h2>{live.length > 1 ? 'Tags' : 'Tag'}</h2>
      {live.map((tag) => (
        <p key={tag.code} class="tag-line">
          <span class="code">{grouped(tag.code)}</span> {onWords(tag.on, state.sort)}
        </p>
      ))}
      {!live.length && <p>No tag is on it.</p>}
      {old.map((tag) => (
        <p key={tag.code} class="tag-line faint">
          <span class="code">{grouped(tag.code)}</span> replaced
        </p>
      ))}
      {!state.retired && (
        <a class="button" href={`/retag/${id}`}>
          {live.length ? 'Change the tag' : 'Put a tag on it'}
        </a>
      )}
    </section>
  );
}
