// The list of parts: found by words and by what is done, drawn in pages as it is scrolled.
import { signal } from '@preact/signals';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { syncState, version } from '../shell/state.ts';
import { row as rowOf, rows, wayTo } from '../shell/things.ts';
import { choose, EVERYTHING, type Filter, haystack, type Listed, withStrips } from './listing.ts';
import { PartRow } from './PartRow.tsx';
import { PartsFilter } from './PartsFilter.tsx';
import './parts.css';
import { counted } from './words.ts';

const PAGE = 40;
const filter = signal<Filter>(EVERYTHING); // kept while other screens are open

export function PartsScreen() {
  const now = version.value;
  const all = useMemo(() => {
    const parts = withStrips(rows('part'), rows('line'));
    const said = new Map<string, string>();
    const nameOf = (id: string): string => rowOf(id)?.name ?? '';
    const hay = (one: Listed): string => {
      const known = said.get(one.row.id) ?? haystack(one, nameOf, wayTo);
      said.set(one.row.id, known);
      return known;
    };
    return { parts, hay };
  }, [now]);
  const asked = filter.value;
  const found = useMemo(() => choose(all.parts, asked, all.hay), [all, asked]);
  if (!all.parts.length) return <Empty />;
  return (
    <Frame title="Parts">
      <PartsFilter filter={asked} onChange={(next) => (filter.value = next)} />
      <div class="list-head">
        <p role="status">
          {found.length === all.parts.length
            ? counted(found.length, 'part')
            : `${found.length} of ${counted(all.parts.length, 'part')}`}
        </p>
        <a class="button" href="/new-part">
          Add a part
        </a>
      </div>
      {!found.length && (
        <p>
          No part fits.{' '}
          <button type="button" onClick={() => (filter.value = EVERYTHING)}>
            Show all parts
          </button>
        </p>
      )}
      <Pages found={found} key={JSON.stringify(asked)} />
    </Frame>
  );
}

function Pages({ found }: { found: Listed[] }) {
  const [pages, setPages] = useState(1);
  const end = useRef<HTMLParagraphElement>(null);
  const more = found.length > pages * PAGE;
  useEffect(() => {
    if (!more || !end.current) return;
    const watch = new IntersectionObserver(
      (seen) => seen.some((one) => one.isIntersecting) && setPages(pages + 1),
      { rootMargin: '1200px' },
    );
    watch.observe(end.current);
    return () => watch.disconnect();
  }, [more, pages]);
  return (
    <>
      <ul class="plain part-list">
        {found.slice(0, pages * PAGE).map((one) => (
          <PartRow one={one} key={one.row.id} />
        ))}
      </ul>
      {more && (
        <p ref={end}>
          <button type="button" onClick={() => setPages(pages + 1)}>
            Show more
          </button>
        </p>
      )}
    </>
  );
}

function Empty() {
  return (
    <Frame title="Parts">
      <p role="status">
        {syncState.value === 'busy'
          ? 'Reading from the workshop computer …'
          : 'No part is entered yet.'}
      </p>
      <p>
        Scan a blank tag and say which part it goes on. A part can also be entered without a tag,
        and get its tag later.
      </p>
      <a class="button main" href="/scan">
        Scan a blank tag
      </a>
      <p class="second-line">
        <a class="button" href="/new-part">
          Add a part
        </a>
      </p>
    </Frame>
  );
}
