// A piece that is made: the part it became, and the way back where that was a mistake.
import { listed } from '../parts/words.ts';
import { ask } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { openedPhone } from '../shell/state.ts';
import { pathOf, row } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { type JoinedLine, unmade } from './made.ts';
import type { Piece } from './wish.ts';

interface Props {
  id: string;
  piece: Piece;
  met: string; // id of the part
}

export function WantedAgain({ id, piece, met }: Props) {
  const { problem, keep } = useKeeping();
  const part = row(met);
  const again = async (): Promise<void> => {
    const back = unmade(id, met, await joined(piece.lines ?? []));
    if (!(await sure(part?.name ?? 'its part', back.left))) return;
    if (await keep(back.drafts, `Wanted again: ${piece.name}`)) go(`/wanted/${id}`, true);
  };
  return (
    <div class="piece-ways">
      <p>{part ? 'It is made.' : 'It is made; its part is not on this phone, or not yet.'}</p>
      {part && (
        <a class="button main" href={pathOf(part)}>
          {part.name}
        </a>
      )}
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="button" onClick={again}>
        It was not made after all
      </button>
    </div>
  );
}

async function joined(lines: readonly string[]): Promise<JoinedLine[]> {
  const found: JoinedLine[] = [];
  for (const id of lines) {
    const card = await openedPhone().card(id);
    if (card) found.push({ id, name: row(id)?.name ?? 'a rivet line', facts: card.facts });
  }
  return found;
}

const lookAt = (lines: string[]): string =>
  `Look at ${listed(lines)}: more was recorded there since, so its layers stay as they are.`;

async function sure(part: string, left: string[]): Promise<boolean> {
  const text = [
    `${part} leaves the lists as entered by mistake, and the rivets of the lines it joined are what they were.`,
    ...(left.length ? [lookAt(left)] : []),
    'The record stays.',
  ].join(' ');
  const said = await ask('Not made after all?', text, [
    { label: 'It was not made', answer: 'yes', main: true },
    { label: 'Leave it as it is', answer: '' },
  ]);
  return said === 'yes';
}
