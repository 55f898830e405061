// Cutting an offcut: what is made of it, where to cut, and what stays; kept as one.

import { Frame } from '../../shell/Frame.tsx';
import { useCard } from '../../shell/things.ts';
import type { Card } from '../../store/phone.ts';
import { liveTags } from '../../tags/attaching.ts';
import { askedIn } from '../asked.ts';
import { NoSuchOffcut } from '../NoSuchOffcut.tsx';
import { nameOf } from '../name.ts';
import type { Fields } from '../piece.ts';
import { whereWords } from '../Results.tsx';
import { isSectionForm } from '../sections/section.ts';
import { CutLength } from './CutLength.tsx';
import { CutSheet } from './CutSheet.tsx';
import { metalOf } from './leaves.ts';
import './cutting.css';
import '../../parts/part.css';

export function CutScreen({ id }: { id: string }) {
  const card = useCard(id);
  if (card === undefined) return <Frame title="…">{null}</Frame>;
  if (card?.state.sort !== 'offcut') return <NoSuchOffcut />;
  const fields = card.state as unknown as Fields;
  if (card.state.cut || card.state.retired)
    return (
      <Frame title={`Cut: ${nameOf(fields)}`}>
        <p>It is used up. What was made of it stands on its own screen.</p>
        <a class="button main" href={`/offcut/${id}`}>
          {nameOf(fields)}
        </a>
      </Frame>
    );
  return (
    <Frame title={`Cut: ${nameOf(fields)}`}>
      <Lies card={card} />
      <Doubtful card={card} />
      {isSectionForm(fields.form) ? (
        <CutLength id={id} card={card} fields={fields} />
      ) : metalOf(fields.shape) ? (
        <CutSheet id={id} card={card} fields={fields} asked={askedIn(location.search)} />
      ) : (
        <p class="note">
          Its shape is not told. Measure it first: <a href={`/offcut/${id}`}>put it right</a>.
        </p>
      )}
      <p class="way-back">
        <a class="button" href={`/offcut/${id}`}>
          Not now
        </a>
      </p>
    </Frame>
  );
}

function Lies({ card: { state } }: { card: Card }) {
  const codes = liveTags(state).map(({ code }) => code);
  const where = whereWords({ codes, place: state.place });
  const { reserved } = state as unknown as Fields;
  return (
    <>
      <p>{where.charAt(0).toUpperCase() + where.slice(1)}.</p>
      {reserved?.text && <p class="note">It is reserved for {reserved.text}.</p>}
    </>
  );
}

/** Two people said different things about it: the drawing shows one of them. */
function Doubtful({ card: { state } }: { card: Card }) {
  const about = state.answers.map((answer) => answer.about);
  if (!about.some((field) => ['shape', 'thickness', 'section', 'form'].includes(field)))
    return null;
  return (
    <p class="note">
      Two different answers stand on its size. Measure it and settle that first, on its own screen.
    </p>
  );
}
