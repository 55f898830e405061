// Sheet, or which section: asked first wherever stock is entered or looked for.
import { Choices } from '../Choices.tsx';
import { type Form, SECTION_FORMS } from './section.ts';

export type AnyForm = 'sheet' | Form;
const FORMS = (['sheet', ...SECTION_FORMS] as const).map((form) => ({ value: form, label: form }));

export function FormPick(props: { value: AnyForm; onChange: (form: AnyForm) => void }) {
  return (
    <div class="form-pick">
      <Choices legend="What form" name="form" choices={FORMS} {...props} />
    </div>
  );
}
