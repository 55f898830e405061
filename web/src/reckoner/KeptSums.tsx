// The list of sums kept with a thing, the newest first, each with what the workshop's computer says
// where that is something else.
import { moment } from '../parts/dates.ts';
import { personName } from '../parts/people.ts';
import { openedPhone } from '../shell/state.ts';
import type { KeptSum } from '../twins/kept.ts';
import { addressOf } from './address.ts';
import { sumNamed } from './book.ts';
import { keptTitle, otherwiseWords, readAgain } from './kept.ts';
import './reckoner.css';
import { Verdict } from './Verdict.tsx';

export function KeptSums({ id, sums }: { id: string; sums: KeptSum[] }) {
  return (
    <section class="kept-sums">
      <h2>Sums kept</h2>
      <ul class="plain">
        {[...sums].reverse().map((kept) => (
          <li key={kept.event}>
            <One id={id} kept={kept} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function One({ id, kept }: { id: string; kept: KeptSum }) {
  const { unit } = openedPhone().identity;
  const sum = sumNamed(kept.sum);
  const title = keptTitle(sum, kept, unit);
  const said = (
    <>
      <span class="kept-sum">
        <b>{title}</b>
        <Verdict verdict={kept.verdict ?? ''} small />
      </span>
      <span class="faint">
        {moment(kept.at)}, {personName(kept.by)}
        {kept.note && `: ${kept.note}`}
      </span>
    </>
  );
  const other = kept.judged ? otherwiseWords(sum, kept.judged.answer, unit) : '';
  return (
    <>
      {sum ? (
        <a href={addressOf(kept.sum, readAgain(sum, kept, unit), id)}>{said}</a>
      ) : (
        <div>{said}</div>
      )}
      {other && <p class="reckons-otherwise">{other}</p>}
    </>
  );
}
