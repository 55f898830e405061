import { useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { go } from '../shell/router.ts';
import { openedPhone, record, version } from '../shell/state.ts';
import { newId } from '../store/ids.ts';

export function PartsScreen() {
  const [name, setName] = useState('');
  version.value;
  const parts = [...openedPhone().rows.values()].filter((row) => row.sort === 'part');
  const add = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const id = newId();
    const steps = {
      template: 'skin flush',
      ops: { film: 'do', edges: 'do', drill: 'do', deburr: 'do', dimple: 'do' },
      holes: { count: null, supplied: 'pilot' },
      open: [],
      along_lines: false,
      final_after_dimple: false,
      die: null,
      window_h: 8,
    };
    await record([
      { kind: 'part.added.v1', subject: id, body: { name } },
      { kind: 'steps.set.v1', subject: id, body: steps },
    ]);
    go(`/part/${id}`);
  };
  return (
    <Frame title="Parts">
      <form onSubmit={add}>
        <label>
          New part
          <input value={name} onInput={(event) => setName(event.currentTarget.value)} required />
        </label>
        <button type="submit">Add</button>
      </form>
      <ul class="plain">
        {parts.map((row) => (
          <li key={row.id}>
            <a href={`/part/${row.id}`}>{row.name}</a>
          </li>
        ))}
      </ul>
    </Frame>
  );
}
