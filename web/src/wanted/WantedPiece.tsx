// One wanted piece: its blank drawn, what it is cut from, what it is for, and its making.
import { addressOf as offcutsFor } from '../offcuts/asked.ts';
import { Answers } from '../parts/Answers.tsx';
import { History } from '../parts/History.tsx';
import { takeBack } from '../parts/recording.ts';
import { RULES, sumNamed } from '../reckoner/book.ts';
import { Drawings } from '../reckoner/Drawings.tsx';
import { MarkingCaution } from '../reckoner/drawings/MarkingCaution.tsx';
import { drawingsOf } from '../reckoner/drawn.ts';
import { KeptSums } from '../reckoner/KeptSums.tsx';
import { Frame } from '../shell/Frame.tsx';
import { ask, sayKept } from '../shell/feedback.tsx';
import { go, path } from '../shell/router.ts';
import { openedPhone, record } from '../shell/state.ts';
import { pathOf, row, useCard } from '../shell/things.ts';
import type { Card } from '../store/phone.ts';
import type { KeptSum } from '../twins/kept.ts';
import { showLength, type Unit } from '../twins/lengths.ts';
import { isUnreckoned, reckon } from '../twins/reckon.ts';
import { MadeForm } from './MadeForm.tsx';
import '../parts/part.css';
import './wanted.css';
import { capital, grainWords, type Piece, pieceWords } from './wish.ts';

export function WantedPiece({ id }: { id: string }) {
  const card = useCard(id);
  if (card === undefined) return <Frame title="…">{null}</Frame>;
  if (card?.state.sort !== 'wanted')
    return (
      <Frame title="Not on this phone">
        <p>This piece is not on this phone, or not yet.</p>
        <a class="button main" href="/wanted">
          All pieces wanted
        </a>
      </Frame>
    );
  const piece = card.state as unknown as Piece;
  return (
    <Frame title={piece.name}>
      {path.value.endsWith('/made') ? (
        <MadeForm id={id} piece={piece} />
      ) : (
        <Opened id={id} card={card} piece={piece} />
      )}
    </Frame>
  );
}

interface Props {
  id: string;
  card: Card;
  piece: Piece;
}

function Opened({ id, card, piece }: Props) {
  const { unit } = openedPhone().identity;
  const sums = (card.state.sums ?? []) as unknown as KeptSum[];
  const made = piece.met ? row(piece.met) : undefined;
  return (
    <>
      <p class="piece-words">{capital(pieceWords(piece, unit))}.</p>
      <p>{grainWords(piece, unit)}</p>
      <For piece={piece} />
      {piece.met ? (
        <>
          <p>It is made.</p>
          {made && (
            <a class="button main" href={pathOf(made)}>
              {made.name}
            </a>
          )}
        </>
      ) : (
        !card.state.retired && <Ways id={id} piece={piece} unit={unit} />
      )}
      {card.state.retired && <Gone id={id} card={card} />}
      <Answers id={id} state={card.state} path={`/wanted/${id}`} />
      <Drawn sums={sums} unit={unit} />
      {sums.length > 0 && <KeptSums id={id} sums={sums} />}
      {!card.state.retired && !piece.met && <NoLonger id={id} name={piece.name} />}
      <History id={id} facts={card.facts} />
    </>
  );
}

function For({ piece }: { piece: Piece }) {
  const things = [...(piece.for_parts ?? []), ...(piece.lines ?? [])];
  const known = things.flatMap((id) => row(id) ?? []);
  if (!known.length && !piece.why) return null;
  return (
    <>
      {piece.why && <p>For {piece.why}.</p>}
      <ul class="plain change-ways">
        {known.map((one) => (
          <li key={one.id}>
            <a href={pathOf(one)}>For {one.name}</a>
          </li>
        ))}
      </ul>
    </>
  );
}

function Ways({ id, piece, unit }: { id: string; piece: Piece; unit: Unit }) {
  const asked = offcutsFor({
    metal: [piece.alloy, piece.temper].filter(Boolean).join('-'),
    clad: piece.clad === 'unknown' ? 'any' : piece.clad,
    thickness: piece.thickness.text,
    width: showLength(piece.a.nm, unit),
    height: showLength(piece.b.nm, unit),
    grain: piece.grain === 'any' ? 'any' : piece.grain === 'a' ? 'along width' : 'along height',
  });
  return (
    <p class="ways">
      <a class="button main" href={`/wanted/${id}/made`}>
        It is made
      </a>
      <a class="button" href={asked}>
        Which offcuts serve?
      </a>
    </p>
  );
}

// Drawn from the sum it came of, as this phone's rules draw it now.
function Drawn({ sums, unit }: { sums: KeptSum[]; unit: Unit }) {
  const kept = sums.at(-1);
  const sum = kept && sumNamed(kept.sum);
  if (!kept || !sum) return <MarkingCaution />;
  const answer = reckon(RULES, kept.sum, kept.inputs, kept.unit);
  if (isUnreckoned(answer)) return <MarkingCaution />;
  const shown = drawingsOf(RULES, sum, answer, kept.inputs, unit);
  // a drawing to mark out by says it itself
  const said = shown.some(({ is }) => is === 'layout' || is === 'flat');
  return (
    <>
      <Drawings sum={sum} answer={answer} inputs={kept.inputs} unit={unit} />
      {!said && <MarkingCaution />}
    </>
  );
}

function NoLonger({ id, name }: { id: string; name: string }) {
  const retire = async (): Promise<void> => {
    const text = 'It leaves the list. The record stays, and this can be taken back.';
    const said = await ask(`No longer wanted: ${name}?`, text, [
      { label: 'No longer wanted', answer: 'yes', main: true },
      { label: 'Leave it as it is', answer: '' },
    ]);
    if (said !== 'yes') return;
    const body = { why: 'entered by mistake' };
    await record([{ kind: 'thing.retired.v1', subject: id, body }]);
    sayKept(`No longer wanted: ${name}`);
    go('/wanted', true);
  };
  return (
    <p class="ways">
      <button type="button" onClick={retire}>
        No longer wanted
      </button>
    </p>
  );
}

function Gone({ id, card }: { id: string; card: Card }) {
  const back = async (): Promise<void> => {
    const events = card.facts.filter((one) => one.kind === 'thing.retired.v1');
    await record(takeBack(events.map((one) => ({ event: one.id, subject: id }))));
    sayKept('Wanted again');
  };
  return (
    <div class="note stack">
      <p>It is no longer wanted.</p>
      <button type="button" onClick={back}>
        Take this back
      </button>
    </div>
  );
}
