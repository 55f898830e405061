// What a person should look at on a part: flags in sentences, and findings that were opened.
import { standingWords } from '../findings/words.ts';
import { sayKept } from '../shell/feedback.tsx';
import { record } from '../shell/state.ts';
import { pathOf, rows } from '../shell/things.ts';
import { moment } from './dates.ts';
import { flagSayings, lastTold, type Saying } from './flags.ts';
import type { SheetProps } from './PartScreen.tsx';
import { takeBack } from './recording.ts';
import { capital } from './words.ts';

export function LookAt({ id, card }: SheetProps) {
  const said = flagSayings(card.state);
  if (!said.length) return null;
  const once = async (saying: Saying): Promise<void> => {
    const event = lastTold(card.facts, saying.key) ?? saying.event;
    await record(takeBack([{ event, subject: id }]));
    sayKept('Told twice: one taken back');
  };
  return (
    <section class="look-at">
      <h2>To look at</h2>
      <ul>
        {said.map((saying) => (
          <li key={saying.words}>
            {saying.words}
            {saying.twice && (
              <button type="button" onClick={() => once(saying)}>
                It was the same work: take one back
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

export function Findings({ id }: { id: string }) {
  const found = rows('finding').filter((one) => one.fields.on === id);
  if (!found.length) return null;
  return (
    <section class="look-at">
      <h2>{found.length > 1 ? 'Findings' : 'Finding'}</h2>
      <ul>
        {found.map((one) => (
          <li key={one.id}>
            <a class="finding-way" href={pathOf(one)}>
              {String(one.fields.what)}
            </a>
            {capital(standingWords(one))}, {moment(one.touched).replaceAll(' ', '\u00a0')}.
          </li>
        ))}
      </ul>
    </section>
  );
}
