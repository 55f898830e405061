// Whether a tag that was read may go on a thing: a blank one may, one in use may not.
import { ask } from '../shell/feedback.tsx';
import { find } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { grouped } from '../twins/tagcode.ts';

/** Why a scanned tag cannot go on the thing; '' where it can. */
export async function whyNot(code: string, thing: Pick<Row, 'id' | 'name'>): Promise<string> {
  const found = find(code);
  if (found.is === 'blank') return '';
  if (found.is === 'thing') {
    if (found.row.id === thing.id) return `${grouped(code)} is on ${thing.name} already.`;
    if (found.row.retired) return '';
    return `${grouped(code)} is on ${found.row.name}. Take a blank tag.`;
  }
  const answer = await ask(
    'Not known here',
    `${grouped(code)} is a tag, but not one that this device knows. It may have been printed ` +
      'since the device last met the workshop computer, or belong to another workshop.',
    [
      { label: 'Use another tag', answer: '', main: true },
      { label: 'Use it anyway', answer: 'use' },
    ],
  );
  return answer === 'use' ? '' : 'Scan another tag.';
}
