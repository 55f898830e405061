// Entering an offcut: what it is, how big, which way the grain runs, and where it goes.
import { useEffect, useRef, useState } from 'preact/hooks';
import { recordWithPhotos } from '../photos/keeping.ts';
import { TakenPhotos } from '../photos/TakenPhotos.tsx';
import { PlacePicker } from '../places/PlacePicker.tsx';
import { ask, sayKept } from '../shell/feedback.tsx';
import { openedPhone } from '../shell/state.ts';
import { wayTo } from '../shell/things.ts';
import type { KeptPhoto } from '../store/database.ts';
import { newId } from '../store/ids.ts';
import { type Draft, NoRoom } from '../store/outbox.ts';
import type { Row } from '../store/rows.ts';
import { attached } from '../tags/attaching.ts';
import { lastOn, OnWhat } from '../tags/OnWhat.tsx';
import { Problem, Typed } from './Choices.tsx';
import { type Answers, type Problems, readAnswers, UNANSWERED } from './draft.ts';
import { nameOf } from './name.ts';
import { OffcutForm } from './OffcutForm.tsx';
import { SECTION_UNANSWERED, type SectionAnswers } from './sections/draft.ts';
import { type AnyForm, FormPick } from './sections/FormPick.tsx';
import { readSectionOffcut } from './sections/material.ts';
import { SectionForm } from './sections/SectionForm.tsx';

interface Props {
  code: string | null;
  onDone: (id: string) => void;
}

export function NewOffcut({ code, onDone }: Props) {
  const { unit } = openedPhone().identity;
  const { entry, change, leftBefore, startAfresh, done } = useUnfinished(code ?? '');
  const { answers, place, photos, form: of, section } = entry;
  const answer = (part: Partial<Answers>): void =>
    change((last) => ({ ...last, answers: { ...last.answers, ...part } }));
  const [on, setOn] = useState(lastOn.value);
  const [tried, setTried] = useState(false);
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const form = useWrongInSight(tried);
  const read =
    of === 'sheet' ? readAnswers(answers, unit) : readSectionOffcut(of, answers, section, unit);
  const problems: Problems = 'problems' in read ? { ...read.problems } : {};
  if (code && !on) problems.tag = 'Say how the tag is fixed.';
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setTried(true);
    if (busy || 'problems' in read || problems.tag) return form.show();
    setBusy(true);
    const id = newId();
    const drafts: Draft[] = [
      { kind: 'offcut.added.v1', subject: id, body: { ...read } as Draft['body'], via: code },
    ];
    if (code && on) drafts.push(attached(id, code, on));
    if (place) drafts.push({ kind: 'thing.moved.v1', subject: id, body: { to: place }, via: code });
    try {
      const kept = await recordWithPhotos(drafts, id, photos, code);
      sayKept(`Offcut kept: ${nameOf(read)}`);
      done();
      if (kept.notKept) await ask('Photo not kept', kept.notKept, [GO_ON]);
      onDone(id);
    } catch (failed) {
      if (!(failed instanceof NoRoom)) throw failed;
      setProblem(failed.message);
      setBusy(false);
    }
  };
  return (
    <form class="new-offcut" ref={form.ref} onSubmit={keep} noValidate>
      {leftBefore && (
        <p class="note left-before">
          Taken up where you left it.
          <button type="button" onClick={startAfresh}>
            Start afresh
          </button>
        </p>
      )}
      <FormPick value={of} onChange={(form) => change((last) => ({ ...last, form }))} />
      {of === 'sheet' ? (
        <OffcutForm
          answers={answers}
          onChange={answer}
          problems={tried ? problems : {}}
          unit={unit}
        />
      ) : (
        <SectionForm
          form={of}
          answers={answers}
          onAnswer={answer}
          section={section}
          onSection={(part) =>
            change((last) => ({ ...last, section: { ...last.section, ...part } }))
          }
          problems={tried ? problems : {}}
          unit={unit}
        />
      )}
      {code && (
        <div data-wrong={tried && problems.tag ? '' : undefined}>
          <OnWhat value={on} onChange={setOn} sort="offcut" />
          <Problem text={tried ? problems.tag : ''} />
        </div>
      )}
      <Where value={place} onChange={(to) => change((last) => ({ ...last, place: to }))} />
      <details class="more" open={photos.length > 0 || undefined}>
        <summary>Photo or note</summary>
        <TakenPhotos
          photos={photos}
          onChange={(next) => change((last) => ({ ...last, photos: next(last.photos) }))}
        />
        <Typed
          label="Note"
          name="note"
          value={answers.note}
          onInput={(note) => answer({ note })}
          last
        />
      </details>
      <Problem text={problem} />
      <button type="submit" class="main" disabled={busy}>
        {'problems' in read ? 'Keep this offcut' : `Keep: ${nameOf(read)}`}
      </button>
    </form>
  );
}

interface Entry {
  form: AnyForm;
  answers: Answers;
  section: SectionAnswers;
  place: string;
  photos: KeptPhoto[];
}
const BLANK: Entry = {
  form: 'sheet',
  answers: UNANSWERED,
  section: SECTION_UNANSWERED,
  place: '',
  photos: [],
};

// by the code of the tag, so that answers about one piece never turn up at another
const unfinished = new Map<string, Entry>();

/** What is being entered; it outlives a look at another screen, until it is kept. */
function useUnfinished(code: string) {
  const [leftBefore, setLeftBefore] = useState(unfinished.has(code));
  const [entry, setEntry] = useState(unfinished.get(code) ?? BLANK);
  const change = (next: (last: Entry) => Entry): void =>
    setEntry((last) => {
      const made = next(last);
      unfinished.set(code, made);
      return made;
    });
  const done = (): void => {
    unfinished.delete(code);
  };
  const startAfresh = (): void => {
    done();
    setLeftBefore(false);
    setEntry(BLANK);
  };
  return { entry, change, leftBefore, startAfresh, done };
}

const GO_ON = { label: 'Go on', answer: 'on', main: true };

function Where({ value, onChange }: { value: string; onChange: (place: string) => void }) {
  const [chooses, setChooses] = useState(false);
  const put = (place: Row | null): void => {
    onChange(place?.id ?? '');
    setChooses(false);
  };
  return (
    <div class="field">
      Where does it go?
      <p class="chosen-place">{value ? wayTo(value).join(', ') : 'Not put away yet.'}</p>
      <button type="button" aria-expanded={chooses} onClick={() => setChooses(!chooses)}>
        {chooses ? 'Leave it so' : 'Choose the place'}
      </button>
      {chooses && <PlacePicker nowhere={value !== ''} onPick={put} />}
    </div>
  );
}

/** Brings the first answer that is wanting into sight, once it has been marked. */
export function useWrongInSight(tried: boolean) {
  const ref = useRef<HTMLFormElement>(null);
  const [asked, setAsked] = useState(0);
  useEffect(() => {
    const wrong = ref.current?.querySelector('[data-wrong]');
    wrong?.scrollIntoView({ block: 'center' });
    wrong?.querySelector('input')?.focus({ preventScroll: true });
  }, [asked, tried]);
  return { ref, show: () => setAsked((last) => last + 1) };
}
