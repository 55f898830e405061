// The foot of a printed answer: whose it is, of when, and by which rules. Not on the screen.
import { useEffect, useState } from 'preact/hooks';
import { moment } from '../parts/dates.ts';
import { openedPhone } from '../shell/state.ts';
import type { Row } from '../store/rows.ts';
import { RULES_VERSION } from './book.ts';

export function PrintFoot({ about }: { about: Row | undefined }) {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const printed = (): void => setNow(Date.now());
    addEventListener('beforeprint', printed);
    return () => removeEventListener('beforeprint', printed);
  }, []);
  const day = moment(now, 0); // the year is always told
  return (
    <p class="print-foot">
      {[openedPhone().identity.name, about?.name, day, `Rules ${RULES_VERSION}`]
        .filter(Boolean)
        .join(' · ')}
    </p>
  );
}
