// What has not reached the workshop's computer for long, or was set aside there.
import { useEffect, useState } from 'preact/hooks';
import { counted } from '../parts/words.ts';
import { exchangedAt, openedPhone, unsent, version } from '../shell/state.ts';

const DAY_MS = 86_400_000;

/** How many entries were set aside, and a sentence where entries have waited for long; else ''. */
export function useUnsettled(): { aside: number; waiting: string } {
  const [aside, setAside] = useState(0);
  const now = version.value;
  useEffect(() => {
    let current = true;
    void openedPhone()
      .db.getAll('sent')
      .then((sent) => current && setAside(sent.filter((one) => one.aside !== null).length));
    return () => {
      current = false;
    };
  }, [now]);
  return { aside, waiting: waitingWords(unsent.value, exchangedAt.value, Date.now()) };
}

/** Times are UTC ms; `met` is when the workshop's computer was last met, null for never. */
export function waitingWords(waiting: number, met: number | null, now: number): string {
  const days = met === null ? null : Math.floor((now - met) / DAY_MS);
  if (!waiting || days === 0) return '';
  const verb = waiting === 1 ? 'is' : 'are';
  const since =
    days === null
      ? 'It has not met the workshop computer since it was paired.'
      : `It last met the workshop computer ${counted(days, 'day')} ago.`;
  return `${counted(waiting, 'entry', 'entries')} ${verb} on this phone only. ${since}`;
}
