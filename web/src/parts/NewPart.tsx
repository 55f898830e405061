// Enters a part, with what it needs and the tag that was scanned for it, in one go.
import { useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { rows } from '../shell/things.ts';
import { newId } from '../store/ids.ts';
import type { On } from '../tags/attaching.ts';
import { lastOn, OnWhat } from '../tags/OnWhat.tsx';
import { added, type Described, NOTHING_KNOWN, wrongWithDescription } from './changes.ts';
import { FirstFields, MoreFields } from './DescriptionFields.tsx';
import { HoleFields, TemplateField } from './NeedsFields.tsx';
import './part.css';
import { type Steps, stepsFrom, TEMPLATES, type Template, templateOf } from './steps.ts';

interface Props {
  code: string | null;
  onDone: (id: string) => void;
}

let lastTemplate = TEMPLATES[0]?.template ?? ''; // like parts are entered one after another

export function NewPart({ code, onDone }: Props) {
  const [described, setDescribed] = useState<Described>(NOTHING_KNOWN);
  const [steps, setSteps] = useState<Steps>(() =>
    stepsFrom(templateOf(lastTemplate) as Template, null),
  );
  const [on, setOn] = useState<On | null>(lastOn.value);
  const [unread, setUnread] = useState('');
  const [problem, setProblem] = useState('');
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const wrong =
      wrongWithDescription(described) || unread || (code && !on ? 'Say how the tag is fixed.' : '');
    setProblem(wrong);
    if (wrong) return;
    const id = newId();
    await record(added(id, described, steps, code && on ? { code, on } : null));
    lastTemplate = steps.template;
    sayKept(`Entered: ${described.name.trim()}`);
    onDone(id);
  };
  const fields = {
    described,
    onChange: (more: Partial<Described>) => setDescribed((now) => ({ ...now, ...more })),
    onWrong: setUnread,
  };
  const like = rows('part').filter(
    (one) => one.name.toLowerCase() === described.name.trim().toLowerCase(),
  );
  return (
    <form onSubmit={submit}>
      <FirstFields {...fields} />
      {like.map((one) => (
        <p class="note" key={one.id}>
          A part of this name is entered already: <a href={`/part/${one.id}`}>{one.name}</a>.
        </p>
      ))}
      <TemplateField steps={steps} onChange={setSteps} />
      <HoleFields steps={steps} onChange={setSteps} />
      {code && <OnWhat value={on} onChange={setOn} />}
      <details class="more-fields">
        <summary>Assembly, station, material and the rest</summary>
        <MoreFields {...fields} />
      </details>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="submit" class="main">
        {described.name.trim() ? `Add ${described.name.trim()}` : 'Add'}
      </button>
    </form>
  );
}

// A part without a tag; one can be put on it later.
export function NewPartScreen() {
  return (
    <Frame title="New part">
      <NewPart code={null} onDone={(id) => go(`/part/${id}`, true)} />
    </Frame>
  );
}
