// A place is taken out of use, only when nothing lies in it; and the way back.
import { useState } from 'preact/hooks';
import { Choices, Problem } from '../offcuts/Choices.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { standing } from '../twins/facts.ts';
import { whyItFailed, withdraw } from './moving.ts';
import type { SheetProps } from './PlaceScreen.tsx';
import { thingsWords, whyNotEmpty } from './words.ts';

type Why = 'scrapped' | 'entered by mistake';

export function RetirePlace({ place, here }: SheetProps) {
  const [why, setWhy] = useState<Why>('scrapped');
  const [problem, setProblem] = useState('');
  const full = whyNotEmpty(place, here);
  const retire = async (): Promise<void> => {
    const draft = { kind: 'thing.retired.v1', subject: place.id, body: { why } };
    const failed = await whyItFailed(() => record([draft]));
    setProblem(failed);
    if (failed) return;
    sayKept(`No longer there: ${place.name}`);
    go('/places', true);
  };
  if (full)
    return (
      <>
        <Problem text={full} />
        <a class="button main" href={`/place/${place.id}/empty`}>
          Move what is in it
        </a>
      </>
    );
  return (
    <>
      <Choices
        legend="Why is it no longer there?"
        name="why"
        columns={2}
        value={why}
        onChange={setWhy}
        choices={[
          { value: 'scrapped', label: 'It is gone' },
          { value: 'entered by mistake', label: 'Entered by mistake' },
        ]}
      />
      <Problem text={problem} />
      <button type="button" class="main" onClick={retire}>
        {place.name} is no longer there
      </button>
    </>
  );
}

/** Said on the screen of a place that was taken out of use. */
export function TakenOut({ place, card, here }: SheetProps) {
  const [problem, setProblem] = useState('');
  const back = async (): Promise<void> => {
    const told = standing(card.facts).filter((fact) => fact.kind === 'thing.retired.v1');
    const entries = told.map((fact) => ({ event: fact.id, subject: place.id }));
    const failed = await whyItFailed(() => withdraw(entries));
    setProblem(failed);
    if (!failed) sayKept(`There again: ${place.name}`);
  };
  return (
    <section class="problem">
      <p>This place is no longer there.</p>
      {here.length > 0 && (
        <p>
          It was not empty on another phone: {thingsWords(here)} {here.length === 1 ? 'is' : 'are'}{' '}
          said to lie in it. Move {here.length === 1 ? 'it' : 'them'}, or take the place back.
        </p>
      )}
      <Problem text={problem} />
      <button type="button" onClick={back}>
        It is there: take that back
      </button>
    </section>
  );
}
