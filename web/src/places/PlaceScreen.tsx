// One place: where it is, what lies in it, and what can be done with all of that.
import { Answers } from '../parts/Answers.tsx';
import { History } from '../parts/History.tsx';
import { Photos } from '../photos/Photos.tsx';
import { Frame } from '../shell/Frame.tsx';
import { path } from '../shell/router.ts';
import { openedPhone, version } from '../shell/state.ts';
import { row, useCard } from '../shell/things.ts';
import type { Card } from '../store/phone.ts';
import type { Row } from '../store/rows.ts';
import { TagAnswers } from '../tags/TagAnswers.tsx';
import { TagLines } from '../tags/TagLines.tsx';
import { Contents, Nowhere } from './Contents.tsx';
import { EditPlace } from './EditPlace.tsx';
import { EmptyOut } from './EmptyOut.tsx';
import './places.css';
import { RetirePlace, TakenOut } from './RetirePlace.tsx';
import { below, lying, ring } from './tree.ts';
import { UndoMove, WhereLine } from './WhereLine.tsx';
import { ASSEMBLY_HINT, FORM_WORDS, type Form } from './words.ts';

export interface SheetProps {
  place: Row;
  card: Card;
  /** what lies directly in it */
  here: Row[];
}

// What can be done with a place, each at an address of its own: /place/ID/empty.
const SHEETS: Record<string, (props: SheetProps) => preact.JSX.Element> = {
  edit: EditPlace,
  empty: EmptyOut,
  retire: RetirePlace,
};

export function PlaceScreen({ id }: { id: string }) {
  return id === 'nowhere' ? <Nowhere /> : <Known id={id} />;
}

function Known({ id }: { id: string }) {
  const card = useCard(id);
  const place = row(id);
  version.value;
  if (card === undefined) return <Frame title="…">{null}</Frame>;
  if (!place || card?.state.sort !== 'place') return <Unknown />;
  const things = lying(openedPhone().rows.values());
  const here = things.get(id) ?? [];
  const Sheet = SHEETS[path.value.split('/')[3] ?? ''];
  if (!Sheet) return <AtIt place={place} card={card} here={here} everything={below(id, things)} />;
  return (
    <Frame title={place.name}>
      <Sheet place={place} card={card} here={here} />
      <p class="place-ways">
        <a class="button leave" href={`/place/${id}`}>
          Back to {place.name}
        </a>
      </p>
    </Frame>
  );
}

function AtIt({ place, card, here, everything }: SheetProps & { everything: Row[] }) {
  const { id } = place;
  const { state } = card;
  return (
    <Frame title={place.name}>
      {state.retired && <TakenOut place={place} card={card} here={here} />}
      <TagAnswers id={id} state={state} />
      <Answers id={id} state={state} path={`/place/${id}`} kind="place.described.v1" />
      <Ring place={place} />
      <p class="faint">{formWords(place)}</p>
      {typeof state.note === 'string' && <p>{state.note}</p>}
      <WhereLine id={id} />
      <UndoMove of={here.map((one) => one.id)} />
      {!state.retired && (
        <a class="button main" href={`/run?place=${id}`}>
          Put things here
        </a>
      )}
      <Contents here={here} everything={everything} />
      <TagLines id={id} state={state} />
      <Photos id={id} state={state} />
      {!state.retired && <Ways id={id} empty={!here.length} offcuts={hasOffcuts(everything)} />}
      <History id={id} facts={card.facts} />
    </Frame>
  );
}

function formWords(place: Row): string {
  const form = place.fields.form as Form | undefined;
  if (form === 'assembly') return `Assembly: ${ASSEMBLY_HINT}.`.replace(': an assembly', ': it');
  const word = form === undefined || form === 'other' ? 'place' : FORM_WORDS[form];
  return `${word.charAt(0).toUpperCase()}${word.slice(1)}`;
}

/** Two phones moved two places into each other: none of them is anywhere until one is moved out. */
function Ring({ place }: { place: Row }) {
  const round = ring(place, openedPhone().rows);
  if (!round.length) return null;
  const names = round.map((one) => one.name);
  return (
    <p class="problem" role="alert">
      {names.length > 1
        ? `${names.join(' lies in ')}, and that lies in ${place.name} again. Say where one of them is.`
        : `${place.name} is said to lie in itself. Say where it is.`}
    </p>
  );
}

const hasOffcuts = (everything: Row[]): boolean => everything.some(({ sort }) => sort === 'offcut');

function Ways({ id, empty, offcuts }: { id: string; empty: boolean; offcuts: boolean }) {
  const ways: [string, string][] = [
    ...(offcuts ? [[`/offcuts?in=${id}`, 'Search the offcuts in it'] as [string, string]] : []),
    ...(empty
      ? []
      : [[`/place/${id}/empty`, 'All of this goes to another place'] as [string, string]]),
    [`/new-place?in=${id}`, 'Enter a place in it'],
    [`/place/${id}/edit`, 'Name, what it is, and a note'],
    [`/place/${id}/retire`, 'This place is no longer there'],
  ];
  return (
    <section aria-label="More about this place">
      <h2>Change</h2>
      <ul class="plain tree">
        {ways.map(([to, label]) => (
          <li key={to}>
            <a href={to}>{label}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Unknown() {
  return (
    <Frame title="Not on this phone">
      <p>
        This place is not on this phone, or not yet. It comes with the next contact to the workshop
        computer, if it is in the record.
      </p>
      <a class="button main" href="/places">
        All places
      </a>
    </Frame>
  );
}
