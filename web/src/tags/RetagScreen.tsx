// Another tag for a thing, or the same one fixed another way.
import { useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { pathOf, row, useCard } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import type { Tag } from '../twins/fold.ts';
import { grouped } from '../twins/tagcode.ts';
import { Fix, Problem } from './AttachEntered.tsx';
import { attached, liveTags, type On, onWords } from './attaching.ts';
import { keptOrWhy } from './keeping.ts';
import { OnWhat } from './OnWhat.tsx';
import { Scanner } from './Scanner.tsx';
import { whyNot } from './whynot.ts';
import './tags.css';

export function RetagScreen({ id }: { id: string }) {
  const card = useCard(id);
  const thing = row(id);
  const [code, setCode] = useState('');
  const [problem, setProblem] = useState('');
  if (card === undefined) return null;
  if (!card || !thing)
    return (
      <Frame title="Not on this device">
        <p>
          This thing is not on this device yet. Come back within reach of the workshop computer.
        </p>
      </Frame>
    );
  const back = (): void => go(pathOf(thing), true);
  if (code)
    return (
      <Frame title="How the tag is fixed">
        <Fix
          code={code}
          thing={thing}
          onDone={back}
          onBack={() => setCode('')}
          back="Another tag"
        />
      </Frame>
    );
  return (
    <Frame title={`Another tag for ${thing.name}`}>
      <Problem text={problem} />
      <Scanner
        prompt="Scan the blank tag that goes on it."
        onRead={async (read) => {
          const refused = await whyNot(read, thing);
          setProblem(refused);
          if (!refused) setCode(read);
        }}
      />
      {liveTags(card.state).map((tag) => (
        <FixedAnew key={tag.code} tag={tag} thing={thing} onDone={back} />
      ))}
    </Frame>
  );
}

function FixedAnew({ tag, thing, onDone }: { tag: Tag; thing: Row; onDone: () => void }) {
  const [on, setOn] = useState<On | null>(null);
  const [problem, setProblem] = useState('');
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!on) return;
    const why = await keptOrWhy([attached(thing.id, tag.code, on)]);
    setProblem(why);
    if (why) return;
    sayKept(`Tag ${onWords(on, thing.sort)}`);
    onDone();
  };
  return (
    <details class="fixed-anew">
      <summary>
        <span>
          The tag <span class="code">{grouped(tag.code)}</span> stays, fixed another way
        </span>
      </summary>
      <form onSubmit={submit}>
        <p>Until now it was {onWords(tag.on, thing.sort)}.</p>
        <OnWhat value={on} onChange={setOn} sort={thing.sort} />
        <Problem text={problem} />
        <button type="submit" class="main">
          Keep that
        </button>
      </form>
    </details>
  );
}
