// Speaking for an offcut, and giving it free. Two may do so at once; then one of them loses.
import { useState } from 'preact/hooks';
import { row } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { Problem } from './Choices.tsx';
import type { Fields } from './piece.ts';

export function Reserve({ id, reserved }: { id: string; reserved: Fields['reserved'] }) {
  const [text, setText] = useState('');
  const [wanting, setWanting] = useState('');
  const { problem, keep } = useKeeping();
  const write = async (name: string | null): Promise<void> => {
    const body = { text: name, part: null };
    const word = name ? `Reserved for ${name}` : 'Free again';
    if (await keep([{ kind: 'offcut.reserved.v1', subject: id, body }], word)) setText('');
  };
  const reserve = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const name = text.trim();
    setWanting(name ? '' : 'Write what it is for, for example a rib or a patch.');
    if (name) await write(name);
  };
  if (reserved?.text) {
    const part = row(reserved.part);
    return (
      <section aria-label="Reserved">
        <h2>Reserved</h2>
        <p>For {part ? <a href={`/part/${part.id}`}>{reserved.text}</a> : reserved.text}.</p>
        <Problem text={problem} />
        <button type="button" onClick={() => write(null)}>
          Give it free
        </button>
      </section>
    );
  }
  return (
    <section aria-label="Reserve it">
      <h2>Free to use</h2>
      <form onSubmit={reserve} noValidate>
        <label>
          Reserve it for
          <input
            name="reserve"
            value={text}
            maxLength={200}
            autocomplete="off"
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </label>
        <Problem text={wanting || problem} />
        <button type="submit">Reserve</button>
      </form>
    </section>
  );
}
