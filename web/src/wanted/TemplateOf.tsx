// The piece at full size: as pages to print, as DXF or as SVG. The workshop's computer draws it.
import { useEffect, useRef, useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { openedPhone, sync, unsent } from '../shell/state.ts';
import {
  type Form,
  fetchTemplate,
  type Paper,
  paperFor,
  readyWords,
  type Template,
} from './template.ts';

const FORMS: readonly { form: Form; words: string }[] = [
  { form: 'pdf', words: 'Pages to print' },
  { form: 'dxf', words: 'DXF file' },
  { form: 'svg', words: 'SVG file' },
];

export function TemplateOf({ id }: { id: string }) {
  const [paper, setPaper] = useState<Paper>(() => paperFor(openedPhone().identity.unit));
  const [busy, setBusy] = useState<Form | ''>('');
  const [problem, setProblem] = useState('');
  const [made, setMade] = useState<Template | null>(null);
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // clear of the sill, which covers what is lowest
    if (made || problem) place.current?.scrollIntoView({ block: 'center' });
  }, [made, problem]);
  const forget = (): void => {
    setMade(null);
    setProblem('');
  };
  const make = async (form: Form): Promise<void> => {
    forget();
    setBusy(form);
    try {
      if (unsent.value) await sync(); // it is drawn from what the workshop's computer has
      setMade(await fetchTemplate(id, form, paper));
    } catch (failed) {
      setProblem(failed instanceof Error ? failed.message : String(failed));
    }
    setBusy('');
  };
  return (
    <section class="template-of">
      <h2>Template at full size</h2>
      <p class="faint">
        With its holes, bend lines and grain, to be laid on the metal. The workshop computer draws
        it, so it must be within reach.
      </p>
      <Choices
        legend="Paper for the pages"
        name="paper"
        value={paper}
        onChange={(chosen: Paper) => {
          forget();
          setPaper(chosen);
        }}
        choices={[
          { value: 'letter', label: 'US Letter' },
          { value: 'a4', label: 'A4' },
        ]}
      />
      <div class="template-forms">
        {FORMS.map(({ form, words }) => (
          <button key={form} type="button" disabled={busy !== ''} onClick={() => void make(form)}>
            {busy === form ? 'Drawing …' : words}
          </button>
        ))}
      </div>
      <div ref={place}>
        {problem && (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
        {made && <Ready made={made} />}
      </div>
    </section>
  );
}

function Ready({ made }: { made: Template }) {
  const [address, setAddress] = useState('');
  useEffect(() => {
    const opened = URL.createObjectURL(made.file);
    setAddress(opened);
    return () => URL.revokeObjectURL(opened);
  }, [made]);
  return (
    <div role="status" class="template-ready">
      <p class="note">
        {readyWords(made)}
        {unsent.value > 0 && ' What is not sent yet from this device is not in it.'}
      </p>
      <a class="button main" href={address} download={made.name} target="_blank" rel="noopener">
        Open the {made.form === 'pdf' ? 'pages' : made.form.toUpperCase()}
      </a>
    </div>
  );
}
