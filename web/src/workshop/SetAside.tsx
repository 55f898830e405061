// What this device sent and the workshop's computer could not take up, with the reasons.
import { useEffect, useState } from 'preact/hooks';
import { moment } from '../parts/dates.ts';
import { openedPhone, version } from '../shell/state.ts';
import type { Sent } from '../store/database.ts';
import { entryWords } from './Sending.tsx';

export function SetAside() {
  const [found, setFound] = useState<Sent[]>([]);
  const now = version.value;
  useEffect(() => {
    let current = true;
    void openedPhone()
      .db.getAll('sent')
      .then((all) => current && setFound(all.filter((one) => one.aside !== null)));
    return () => {
      current = false;
    };
  }, [now]);
  if (!found.length) return null;
  return (
    <section aria-labelledby="aside">
      <h2 id="aside">Not taken up</h2>
      <p>
        The workshop computer could not take these up. They are kept here and there, but they do not
        count: record again what is missing.
      </p>
      <ul class="plain entries">
        {[...found].reverse().map((one) => (
          <li key={one.seq}>
            <p>
              {entryWords(one)} <span class="faint">({moment(one.at)})</span>
            </p>
            <p class="faint">Because {one.aside}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}
