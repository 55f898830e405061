// Putting right what stands about an offcut. Only what was changed is written.
import { useState } from 'preact/hooks';
import { metals } from '../generated/materials.json';
import { sayKept } from '../shell/feedback.tsx';
import { openedPhone, record } from '../shell/state.ts';
import { type Draft, NoRoom } from '../store/outbox.ts';
import { Problem, Typed } from './Choices.tsx';
import { type Answers, answersOf, changesIn, readAnswers } from './draft.ts';
import { useWrongInSight } from './NewOffcut.tsx';
import { OffcutForm } from './OffcutForm.tsx';
import type { Fields } from './piece.ts';
import { formOf, type SectionAnswers, sectionAnswersOf } from './sections/draft.ts';
import { readSectionOffcut } from './sections/material.ts';
import { SectionForm } from './sections/SectionForm.tsx';
import type { SectionFields } from './sections/section.ts';

export function EditOffcut(props: { id: string; fields: Fields; onDone: () => void }) {
  const { id, fields, onDone } = props;
  const { unit } = openedPhone().identity;
  const [answers, setAnswers] = useState<Answers>(() => answersOf(fields, isListed(fields)));
  const [tried, setTried] = useState(false);
  const [problem, setProblem] = useState('');
  const form = useWrongInSight(tried);
  const of = formOf(fields as SectionFields);
  const [section, setSection] = useState<SectionAnswers>(() =>
    sectionAnswersOf(fields as SectionFields),
  );
  const read =
    of === 'sheet' ? readAnswers(answers, unit) : readSectionOffcut(of, answers, section, unit);
  const problems = tried && 'problems' in read ? read.problems : {};
  const change = (part: Partial<Answers>): void => setAnswers((last) => ({ ...last, ...part }));
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setTried(true);
    if ('problems' in read) return form.show();
    const body = changesIn(read as Parameters<typeof changesIn>[0], fields);
    if (!Object.keys(body).length) return onDone();
    try {
      await record([
        { kind: 'offcut.described.v1', subject: id, body: { ...body } as Draft['body'] },
      ]);
      sayKept('Changed');
      onDone();
    } catch (failed) {
      if (!(failed instanceof NoRoom)) throw failed;
      setProblem(failed.message);
    }
  };
  return (
    <form onSubmit={keep} ref={form.ref} noValidate aria-label="Put it right">
      {of === 'sheet' ? (
        <OffcutForm answers={answers} onChange={change} problems={problems} unit={unit} />
      ) : (
        <SectionForm
          form={of}
          answers={answers}
          onAnswer={change}
          section={section}
          onSection={(part) => setSection((last) => ({ ...last, ...part }))}
          problems={problems}
          unit={unit}
        />
      )}
      <Typed
        label="Name"
        hint="may stay empty"
        name="name"
        value={answers.name}
        onInput={(name) => change({ name })}
      />
      <Typed
        label="Note"
        hint="may stay empty"
        name="note"
        value={answers.note}
        onInput={(note) => change({ note })}
        last
      />
      <Problem text={problem} />
      <button type="submit" class="main">
        Keep the changes
      </button>
      <button type="button" class="leave" onClick={onDone}>
        Leave it as it was
      </button>
    </form>
  );
}

function isListed({ alloy, temper }: Fields): boolean {
  return metals.some((metal) => metal.alloy === alloy && metal.temper === temper);
}
