// A blank tag: what does it go on? Each answer has an address of its own, so that "back" goes back.
import type { ComponentType } from 'preact';
import { Frame } from '../shell/Frame.tsx';
import { later } from '../shell/later.tsx';
import { go, path } from '../shell/router.ts';
import { find, pathOf, row } from '../shell/things.ts';
import { check, grouped } from '../twins/tagcode.ts';
import { AttachEntered } from './AttachEntered.tsx';
import { NoTag } from './NoTag.tsx';
import './tags.css';

interface FormProps {
  code: string;
  onDone: (id: string) => void;
}
interface Way {
  word: string;
  label: string;
  title: string;
  Form: ComponentType<FormProps>;
}

const WAYS: Way[] = [
  {
    word: 'part',
    label: 'A new part',
    title: 'New part',
    Form: later<FormProps>(async () => (await import('../parts/NewPart.tsx')).NewPart, true),
  },
  {
    word: 'offcut',
    label: 'A new offcut',
    title: 'New offcut',
    Form: later<FormProps>(async () => (await import('../offcuts/NewOffcut.tsx')).NewOffcut, true),
  },
  {
    word: 'place',
    label: 'A new place',
    title: 'New place',
    Form: later<FormProps>(async () => (await import('../places/NewPlace.tsx')).NewPlace, true),
  },
  {
    word: 'entered',
    label: 'A thing already entered',
    title: 'Tag on a thing already entered',
    Form: AttachEntered,
  },
];

export function AttachScreen({ id: code }: { id: string }) {
  const read = check(code);
  if (!read.code) return <NoTag sentence={read.sentence} />;
  const found = find(code);
  if (found.is === 'thing' && !found.row.retired)
    return <Taken code={code} name={found.row.name} to={pathOf(found.row)} />;
  const way = WAYS.find(({ word }) => word === path.value.split('/')[3]);
  if (!way) return <Choice code={code} blank={found.is === 'blank'} />;
  return (
    <Frame title={way.title}>
      {way.word !== 'entered' && (
        <p>
          Tag <span class="code">{grouped(code)}</span>
        </p>
      )}
      <way.Form code={code} onDone={(id) => go(pathTo(id), true)} />
    </Frame>
  );
}

function pathTo(id: string): string {
  const thing = row(id);
  return thing ? pathOf(thing) : '/';
}

function Choice({ code, blank }: { code: string; blank: boolean }) {
  return (
    <Frame title={blank ? 'This tag is blank. What does it go on?' : 'What does this tag go on?'}>
      <p>
        Tag <span class="code">{grouped(code)}</span>
      </p>
      <ul class="plain goes-on">
        {WAYS.map(({ word, label }) => (
          <li key={word}>
            <a href={`/attach/${code}/${word}`}>{label}</a>
          </li>
        ))}
      </ul>
    </Frame>
  );
}

function Taken({ code, name, to }: { code: string; name: string; to: string }) {
  return (
    <Frame title="This tag is in use">
      <p>
        <span class="code">{grouped(code)}</span> is on <a href={to}>{name || 'a thing'}</a>. Take a
        blank tag.
      </p>
      <a class="button main" href="/scan">
        Scan another tag
      </a>
    </Frame>
  );
}
