// What the rule for flush heads says of the layers of a stretch, each with its verdict in a word.
import type { FlushSaid } from '../reckoner/lineflush.ts';
import '../reckoner/reckoner.css';
import { Verdict } from '../reckoner/Verdict.tsx';
import { nameOf } from './JointDrawing.tsx';

interface Props {
  said: readonly FlushSaid[];
  nameOf?: (part: string) => string;
}

export function FlushSaidOf({ said, nameOf: named = nameOf }: Props) {
  if (!said.length) return null;
  return (
    <ul class="plain flush-said">
      {said.map(({ part, verdict, why }) => (
        <li key={part}>
          <p>
            <Verdict verdict={verdict} small /> <b>{named(part)}</b>
          </p>
          <p>{why}</p>
        </li>
      ))}
    </ul>
  );
}
