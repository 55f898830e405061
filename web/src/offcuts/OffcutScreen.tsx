// One offcut: its drawing, what it is and how that is known, where it lies, and what it is for.

import { useState } from 'preact/hooks';
import { moment } from '../parts/dates.ts';
import { History } from '../parts/History.tsx';
import { personName } from '../parts/people.ts';
import { Photos } from '../photos/Photos.tsx';
import { WhereLine } from '../places/WhereLine.tsx';
import { Frame } from '../shell/Frame.tsx';
import { ask } from '../shell/feedback.tsx';
import { later } from '../shell/later.tsx';
import { go } from '../shell/router.ts';
import { openedPhone } from '../shell/state.ts';
import { useCard } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import type { Card } from '../store/phone.ts';
import { TagAnswers } from '../tags/TagAnswers.tsx';
import { TagLines } from '../tags/TagLines.tsx';
import { standing } from '../twins/facts.ts';
import { addressOf } from './asked.ts';
import { Problem } from './Choices.tsx';
import { LeftOf } from './cutting/LeftOf.tsx';
import { Differences } from './Differences.tsx';
import { EditOffcut } from './EditOffcut.tsx';
import { MeasuredWords } from './Measured.tsx';
import { NewOffcut } from './NewOffcut.tsx';
import { NoSuchOffcut } from './NoSuchOffcut.tsx';
import { nameOf, withUnit } from './name.ts';
import { type Fields, KNOWN_WORDS, notForStructure, pieceOf, thicknessInBoth } from './piece.ts';
import { Reserve } from './Reserve.tsx';
import { othersLike, SectionDrawing, SectionWords } from './sections/SectionTold.tsx';
import { isSectionForm } from './sections/section.ts';
import { KnownShape, ShapeWords } from './shape/KnownShape.tsx';
import { metalName } from './words.ts';
import '../parts/part.css';
import './offcuts.css';

// only where one was cut
const WasCut = later(async () => (await import('./cutting/WasCut.tsx')).WasCut, true);

export function OffcutScreen({ id }: { id: string }) {
  if (id === 'new')
    return (
      <Frame title="New offcut">
        <NewOffcut code={null} onDone={(made) => go(`/offcut/${made}`, true)} />
      </Frame>
    );
  return <Known id={id} />;
}

function Known({ id }: { id: string }) {
  const card = useCard(id);
  const [edits, setEdits] = useState(false);
  if (card === undefined) return <Frame title="Offcut">{null}</Frame>;
  if (card?.state.sort !== 'offcut') return <NoSuchOffcut />;
  const fields = card.state as unknown as Fields;
  return (
    <Frame title={unbroken(nameOf(fields))}>
      <TagAnswers id={id} state={card.state} />
      <Differences id={id} state={card.state} />
      {edits ? (
        <EditOffcut id={id} fields={fields} onDone={() => setEdits(false)} />
      ) : (
        <Told card={card} fields={fields} onEdit={() => setEdits(true)} />
      )}
    </Frame>
  );
}

/** Keeps 8 1/2 on one line. */
const unbroken = (text: string): string => text.replace(/(\d) (\d+\/\d)/g, '$1\u00a0$2');

function Told({ card, fields, onEdit }: { card: Card; fields: Fields; onEdit: () => void }) {
  const { id, state } = card;
  const { shape } = fields;
  const piece = pieceOf(
    id,
    fields,
    state.answers.map(({ about }) => about),
  );
  const reasons = notForStructure(piece, openedPhone().identity.unit);
  const isSection = isSectionForm(fields.form);
  return (
    <>
      {state.retired && <Gone card={card} />}
      {state.cut && <WasCut id={id} card={card} />}
      {typeof state.parent === 'string' && <LeftOf id={id} card={card} />}
      {isSection && !state.cut && <SectionDrawing fields={fields} />}
      {shape && !isSection && !state.cut && <KnownShape shape={shape} grain={piece.grain} />}
      {state.shape_from && !state.cut && <MeasuredWords from={state.shape_from} />}
      {isSection ? (
        <SectionWords fields={fields} reasons={reasons} />
      ) : (
        <What fields={fields} reasons={reasons} />
      )}
      {!state.cut && <WhereLine id={id} />}
      {!state.retired && !state.cut && <Reserve id={id} reserved={fields.reserved} />}
      {!state.cut && <TagLines id={id} state={state} />}
      <Photos id={id} state={state} />
      {!state.retired && !state.cut && <Doings id={id} fields={fields} onEdit={onEdit} />}
      <History id={id} facts={card.facts} />
    </>
  );
}

function What({ fields, reasons }: { fields: Fields; reasons: string[] }) {
  const { alloy, temper, clad, thickness, measured, known_by, shape, note } = fields;
  const metal = metalName(alloy ?? null, temper ?? null, clad);
  const cladding = clad === 'unknown' && alloy ? ', clad or bare not known' : '';
  return (
    <>
      <p>
        {metal.charAt(0).toUpperCase() + metal.slice(1)}
        {cladding}
        {thickness && `, ${thicknessInBoth(thickness)} `}
        {measured === 'over film'
          ? 'measured over film, so not confirmed'
          : 'measured on bare metal'}
        . {known_by && `Metal: ${KNOWN_WORDS[known_by]}.`}
      </p>
      {shape && <ShapeWords shape={shape} grain={fields.grain ?? 'unknown'} />}
      {note && <p>{note}</p>}
      {reasons.length > 0 && (
        <p class="note">
          Not offered for structure: {reasons.join('; ').replace(/: never for structure/g, '')}.
        </p>
      )}
    </>
  );
}

function Doings({ id, fields, onEdit }: { id: string; fields: Fields; onEdit: () => void }) {
  const { problem, keep } = useKeeping();
  const usedUp = async (): Promise<void> => {
    const answer = await ask('Used up?', `${nameOf(fields)} leaves the list and the search.`, [
      { label: 'Yes, it is used up', answer: 'yes', main: true },
      { label: 'No, keep it', answer: 'no' },
    ]);
    if (answer !== 'yes') return;
    await keep([{ kind: 'thing.retired.v1', subject: id, body: { why: 'scrapped' } }], 'Used up');
  };
  const metal = fields.alloy && fields.temper ? `${fields.alloy}-${fields.temper}` : '';
  const thickness = fields.thickness ? withUnit(fields.thickness) : '';
  const like = othersLike(fields) ?? addressOf({ metal, thickness });
  return (
    <section aria-label="What to do with it" class="doings">
      <a class="button main" href={`/cut/${id}`}>
        Cut it
      </a>
      <button type="button" onClick={onEdit}>
        Put something right
      </button>
      <a class="button" href={like}>
        {isSectionForm(fields.form)
          ? 'Others of this section'
          : 'Others of this metal and thickness'}
      </a>
      <Problem text={problem} />
      <button type="button" onClick={usedUp}>
        Used up
      </button>
    </section>
  );
}

function Gone({ card }: { card: Card }) {
  const { retired } = card.state;
  const last = standing(card.facts)
    .filter((fact) => fact.kind === 'thing.retired.v1')
    .at(-1);
  const { problem, keep } = useKeeping();
  const undo = async (): Promise<void> => {
    if (!last) return;
    const body = { event: last.id };
    await keep([{ kind: 'event.withdrawn.v1', subject: card.id, body }], 'Still here');
  };
  const why = retired?.why === 'scrapped' ? 'Used up' : 'Entered by mistake';
  return (
    <div class="note">
      <p>
        {why}, {moment(Number(retired?.at))}, {personName(String(retired?.by))}.
      </p>
      <Problem text={problem} />
      <button type="button" onClick={undo}>
        Undo: it is still here
      </button>
    </div>
  );
}
