// For a button that records something: says the word once it is kept, or the reason why it is not.
import { useState } from 'preact/hooks';
import { type Draft, NoRoom } from '../store/outbox.ts';
import { sayKept } from './feedback.tsx';
import { record } from './state.ts';

export interface Keeping {
  problem: string; // a sentence to stand beside the button
  /** Ids of what was recorded, null where there was no room. An empty word says nothing. */
  keep: (drafts: Draft[], word: string) => Promise<string[] | null>;
}

export function useKeeping(): Keeping {
  const [problem, setProblem] = useState('');
  const keep: Keeping['keep'] = async (drafts, word) => {
    try {
      const ids = await record(drafts);
      setProblem('');
      if (word) sayKept(word);
      return ids;
    } catch (failed) {
      if (!(failed instanceof NoRoom)) throw failed;
      setProblem(failed.message);
      return null;
    }
  };
  return { problem, keep };
}
