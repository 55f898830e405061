// Recording something about a tag, with the sentence for the screen where the phone is full.
import { record } from '../shell/state.ts';
import { type Draft, NoRoom } from '../store/outbox.ts';

/** '' once the drafts are on the disk, else why they are not. */
export async function keptOrWhy(drafts: Draft[]): Promise<string> {
  try {
    await record(drafts);
    return '';
  } catch (problem) {
    if (problem instanceof NoRoom) return problem.message;
    throw problem;
  }
}
