// Speaking for an offcut, and giving it free. Two may do so at once; then one of them loses.
import { useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { record } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { Fields } from './piece.ts';

export function Reserve({ id, reserved }: { id: string; reserved: Fields['reserved'] }) {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState('');
  const write = async (name: string | null): Promise<void> => {
    await record([{ kind: 'offcut.reserved.v1', subject: id, body: { text: name, part: null } }]);
    setText('');
    sayKept(name ? `Reserved for ${name}` : 'Free again');
  };
  const reserve = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const name = text.trim();
    setProblem(name ? '' : 'Write what it is for, for example a rib or a patch.');
    if (name) await write(name);
  };
  if (reserved?.text) {
    const part = row(reserved.part);
    return (
      <section aria-label="Reserved">
        <h2>Reserved</h2>
        <p>For {part ? <a href={`/part/${part.id}`}>{reserved.text}</a> : reserved.text}.</p>
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
        {problem && (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
        <button type="submit">Reserve</button>
      </form>
    </section>
  );
}
