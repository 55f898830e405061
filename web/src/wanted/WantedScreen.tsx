// The pieces that are wanted: those to be made first, then those that are made.
import { addressOf } from '../reckoner/address.ts';
import { RULES } from '../reckoner/book.ts';
import '../reckoner/reckoner.css';
import { Frame } from '../shell/Frame.tsx';
import { openedPhone } from '../shell/state.ts';
import { row as rowOf, rows } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { isOpen, pieceOf } from './open.ts';
import '../parts/part.css';
import './wanted.css';
import { pieceWords, unbroken } from './words.ts';

export function WantedScreen() {
  const all = rows('wanted').sort((one, other) => other.touched - one.touched);
  const open = all.filter(isOpen);
  const made = all.filter((one) => !isOpen(one));
  return (
    <Frame title="Pieces wanted">
      {!open.length && <p>{made.length ? 'All of them are made.' : 'No piece is wanted.'}</p>}
      {open.length > 0 && <List pieces={open} />}
      {open.length > 0 && (
        <a class="button" href="/cut-plan">
          Cut plan: all of them over the offcuts
        </a>
      )}
      <section>
        <h2>I need a piece</h2>
        <ul class="plain questions">
          {RULES.sums
            .filter((sum) => sum.piece)
            .map((sum) => (
              <li key={sum.name}>
                <a href={addressOf(sum.name, {})}>
                  <b>{sum.title}</b>
                  <span>{sum.question}</span>
                </a>
              </li>
            ))}
        </ul>
      </section>
      {made.length > 0 && (
        <section>
          <h2>Made</h2>
          <List pieces={made} />
        </section>
      )}
    </Frame>
  );
}

function List({ pieces }: { pieces: Row[] }) {
  const { unit } = openedPhone().identity;
  return (
    <ul class="plain wanted-list">
      {pieces.map((one) => (
        <li key={one.id}>
          <a href={`/wanted/${one.id}`}>
            <b>{one.name}</b>
            <span>{unbroken(pieceWords(pieceOf(one), unit))}</span>
            {forWords(one) && <span class="faint">for {forWords(one)}</span>}
          </a>
        </li>
      ))}
    </ul>
  );
}

function forWords(one: Row): string {
  const { for_parts: parts = [], lines = [] } = pieceOf(one);
  return [...parts, ...lines].flatMap((id) => rowOf(id)?.name ?? []).join(', ');
}
