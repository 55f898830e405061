// A length of section stock as it is recorded: what is asked of every offcut, and what of a section.

import type { Unit } from '../../twins/lengths.ts';
import { type Answers, type Problems, readAnswers, UNANSWERED } from '../draft.ts';
import { readSection, type SectionAnswers, type SectionProblems } from './draft.ts';
import type { Form } from './section.ts';

/** The body of offcut.added, or a sentence for every answer that is wanting. */
export function readSectionOffcut(
  form: Form,
  answers: Answers,
  section: SectionAnswers,
  unit: Unit,
) {
  const { metal, alloy, temper, measured, known_by, name, note, thickness } = answers;
  // what is asked of sheet alone is answered, so that it is not found wanting
  const sheet = { clad: 'unknown', grain: 'unknown', a: '1 in', b: '1 in' } as const;
  const asked = { metal, alloy, temper, measured, known_by, name, note, thickness };
  const common = readAnswers({ ...UNANSWERED, ...sheet, ...asked }, unit);
  const own = readSection(form, section, thickness, unit);
  if (!('problems' in common) && !('problems' in own)) return { ...common, ...own };
  const problems: Problems & SectionProblems = {
    ...('problems' in common ? common.problems : {}),
    ...('problems' in own ? own.problems : {}),
  };
  return { problems };
}
