// One wanted piece: its blank drawn, what it is cut from, what it is for, and its making.
import { Answers } from '../parts/Answers.tsx';
import { History } from '../parts/History.tsx';
import '../parts/part.css';
import { Retired } from '../parts/RetireForm.tsx';
import { addressOf } from '../reckoner/address.ts';
import { KeptSums } from '../reckoner/KeptSums.tsx';
import { Frame } from '../shell/Frame.tsx';
import { ask } from '../shell/feedback.tsx';
import { path } from '../shell/router.ts';
import { openedPhone } from '../shell/state.ts';
import { pathOf, row, useCard } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import type { Card } from '../store/phone.ts';
import type { KeptSum } from '../twins/kept.ts';
import { ChangePiece } from './ChangePiece.tsx';
import { MadeForm } from './MadeForm.tsx';
import { PieceDrawing } from './PieceDrawing.tsx';
import { TemplateOf } from './TemplateOf.tsx';
import { WantedAgain } from './WantedAgain.tsx';
import './wanted.css';
import type { Piece } from './wish.ts';
import {
  asSentence,
  capital,
  grainWords,
  offcutsAddress,
  otherUnitWords,
  pieceWords,
  unbroken,
} from './words.ts';

export interface PieceProps {
  id: string;
  card: Card;
  piece: Piece;
}

export function WantedPiece({ id }: { id: string }) {
  const card = useCard(id);
  if (card === undefined) return <Frame title="…">{null}</Frame>;
  if (card?.state.sort !== 'wanted')
    return (
      <Frame title="Not on this phone">
        <p>
          This piece is not on this phone, or not yet. It comes with the next contact to the
          workshop computer, if it is in the record.
        </p>
        <a class="button main" href="/wanted">
          All pieces wanted
        </a>
      </Frame>
    );
  const piece = card.state as unknown as Piece;
  const open = !piece.met && !card.state.retired;
  const sheet = path.value.split('/')[3];
  return (
    <Frame title={piece.name}>
      {sheet === 'made' && open && <MadeForm id={id} piece={piece} />}
      {sheet === 'edit' && <ChangePiece id={id} piece={piece} />}
      {sheet === 'edit' && (
        <p class="way-back">
          <a class="button" href={`/wanted/${id}`}>
            Back to {piece.name}
          </a>
        </p>
      )}
      {(!sheet || (sheet === 'made' && !open)) && <Opened id={id} card={card} piece={piece} />}
    </Frame>
  );
}

function Opened({ id, card, piece }: PieceProps) {
  const { unit } = openedPhone().identity;
  const sums = (card.state.sums ?? []) as unknown as KeptSum[];
  return (
    <>
      <p class="piece-words">
        {unbroken(capital(pieceWords(piece, unit)))}. {unbroken(grainWords(piece, unit))}
      </p>
      <p class="faint">That is {unbroken(otherUnitWords(piece, unit))}.</p>
      {piece.why && <p>{asSentence(piece.why)}</p>}
      {card.state.retired ? (
        <Retired id={id} card={card} />
      ) : piece.met ? (
        <WantedAgain id={id} piece={piece} met={piece.met} />
      ) : (
        <p class="piece-ways">
          <a class="button main" href={`/wanted/${id}/made`}>
            It is made
          </a>
          <a class="button" href={offcutsAddress(piece, unit)}>
            Which offcuts serve?
          </a>
        </p>
      )}
      <Answers id={id} state={card.state} path={`/wanted/${id}`} kind="piece.described.v1" />
      <PieceDrawing piece={piece} sums={sums} />
      {!card.state.retired && <TemplateOf id={id} />}
      {sums.length > 0 && (
        <>
          <StandsOn kept={sums.at(-1) as KeptSum} />
          <KeptSums id={id} sums={sums} />
        </>
      )}
      <For piece={piece} />
      {!card.state.retired && <Change id={id} piece={piece} />}
      <History id={id} facts={card.facts} />
    </>
  );
}

// What the sum it came of stands on, as it was kept.
function StandsOn({ kept: { answer } }: { kept: KeptSum }) {
  return (
    <section class="stands-on">
      {answer.why && <p>{answer.why}</p>}
      {answer.caution && <p class="note">{answer.caution}</p>}
      {answer.source && (
        <p>
          <b>Source:</b> {asSentence(answer.source)}
        </p>
      )}
    </section>
  );
}

function For({ piece: { for_parts = [], lines = [] } }: { piece: Piece }) {
  const known = [...for_parts, ...lines].flatMap((id) => row(id) ?? []);
  if (!known.length) return null;
  return (
    <section>
      <h2>What it is for</h2>
      <ul class="plain change-ways">
        {known.map((one) => (
          <li key={one.id}>
            <a href={pathOf(one)}>{one.name}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Change({ id, piece }: { id: string; piece: Piece }) {
  return (
    <section>
      <h2>Change</h2>
      <ul class="plain change-ways">
        <li>
          <a href={`/wanted/${id}/edit`}>Name, blank and the rest</a>
        </li>
        <li>
          <a href={addressOf('', {}, id)}>Bench sums for this piece</a>
        </li>
      </ul>
      {!piece.met && <NoLonger id={id} name={piece.name} />}
    </section>
  );
}

function NoLonger({ id, name }: { id: string; name: string }) {
  const { problem, keep } = useKeeping();
  const retire = async (): Promise<void> => {
    const text = 'It leaves the list. The record stays, and this can be taken back.';
    const said = await ask(`No longer wanted: ${name}?`, text, [
      { label: 'No longer wanted', answer: 'yes', main: true },
      { label: 'Leave it as it is', answer: '' },
    ]);
    if (said !== 'yes') return;
    const draft = { kind: 'thing.retired.v1', subject: id, body: { why: 'entered by mistake' } };
    await keep([draft], `No longer wanted: ${name}`);
  };
  return (
    <p class="piece-ways">
      {problem && <span class="problem">{problem}</span>}
      <button type="button" onClick={retire}>
        No longer wanted, or entered by mistake
      </button>
    </p>
  );
}
