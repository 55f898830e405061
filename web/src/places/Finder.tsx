// Where is it: one field over everything. What stands below gives way to what is found.
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { openedPhone, version } from '../shell/state.ts';
import { pathOf, wayTo } from '../shell/things.ts';
import { grouped } from '../twins/tagcode.ts';
import './places.css';
import { type Hit, whereIs } from './search.ts';
import { named } from './words.ts';

const MOST = 40;

export function Finder({ children }: { children?: ComponentChildren }) {
  const [typed, setTyped] = useState('');
  version.value;
  const found = whereIs(openedPhone().rows.values(), typed);
  return (
    <>
      <input
        type="search"
        class="finder"
        aria-label="Where is it?"
        placeholder="Where is it? Name, number or tag"
        value={typed}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        enterkeyhint="search"
        onInput={(event) => setTyped(event.currentTarget.value)}
      />
      {typed.trim() ? <Hits found={found} /> : children}
    </>
  );
}

function Hits({ found }: { found: Hit[] }) {
  if (!found.length)
    return (
      <p role="status">
        Nothing on this phone has this name, number or tag. It may be entered under another word.
      </p>
    );
  return (
    <>
      <p class="out-of-sight" role="status">
        {found.length} found
      </p>
      <ul class="plain things">
        {found.slice(0, MOST).map(({ row, code }) => (
          <li key={row.id}>
            <a href={pathOf(row)}>
              <b>{named(row)}</b> {typeof row.fields.number === 'string' && row.fields.number}
              <span class="under">{whereWords({ row, code })}</span>
            </a>
          </li>
        ))}
      </ul>
      {found.length > MOST && (
        <p class="faint">{found.length - MOST} more: type another word of the name.</p>
      )}
    </>
  );
}

/** "part, in Back wall, Shelf 2; tag 7K2QD 0ABCD" */
function whereWords({ row, code }: Hit): string {
  if (row.sort === 'wanted') return `piece wanted, ${wantedWords(row)}`;
  const way = wayTo(row.place).join(', ');
  const where = row.sort === 'place' ? 'lies in no other place' : 'nobody has said where it lies';
  const said = [row.sort, row.retired ? 'no longer there' : way ? `in ${way}` : where];
  return `${said.join(', ')}${code ? `; tag ${grouped(code)}` : ''}`;
}

function wantedWords({ retired, fields }: Hit['row']): string {
  if (retired) return 'no longer';
  return fields.met ? 'made' : 'still to be made';
}

export function FindScreen() {
  return (
    <Frame title="Where is it?">
      <Finder>
        <p>
          Type what is remembered of the name, the number, or the code on the tag. Parts, offcuts
          and places are found, each with the way to it, and pieces that are wanted.
        </p>
      </Finder>
    </Frame>
  );
}
