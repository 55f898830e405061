// The bench sums: the four that are asked most, the rest for when there is no drawing, and pieces.
import { Frame } from '../shell/Frame.tsx';
import { row } from '../shell/things.ts';
import type { Sum } from '../twins/reckon.ts';
import { OpenPieces } from '../wanted/OpenPieces.tsx';
import { About } from './About.tsx';
import { aboutAt, addressOf } from './address.ts';
import { RULES } from './book.ts';
import './reckoner.css';

export function ReckonerScreen() {
  const about = row(aboutAt(location.search));
  const first = RULES.sums.filter((sum) => sum.first);
  const pieces = RULES.sums.filter((sum) => sum.piece);
  const rest = RULES.sums.filter((sum) => !sum.first && !sum.piece);
  return (
    <Frame title="Reckoner">
      {about && <About thing={about} />}
      <OpenPieces />
      <Questions sums={first} about={about?.id ?? ''} />
      <Others title="No drawing for this" sums={rest} about={about?.id ?? ''} />
      <Others title="I need a piece" sums={pieces} about={about?.id ?? ''} />
    </Frame>
  );
}

function Questions({ sums, about }: { sums: Sum[]; about: string }) {
  return (
    <ul class="plain questions">
      {sums.map((sum) => (
        <li key={sum.name}>
          <a href={addressOf(sum.name, {}, about)}>
            <b>{sum.title}</b>
            <span>{sum.question}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

function Others({ title, sums, about }: { title: string; sums: Sum[]; about: string }) {
  if (!sums.length) return null;
  return (
    <details class="other-sums">
      <summary>{title}</summary>
      <Questions sums={sums} about={about} />
    </details>
  );
}
