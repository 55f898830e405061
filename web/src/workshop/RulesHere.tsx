// Which rules the bench sums go by on this device, and whether the workshop's computer has the same.
import { useEffect, useState } from 'preact/hooks';
import { rulesWords } from './rules.ts';
import { rulesThere } from './workshopwire.ts';

export function RulesHere() {
  const [here, setHere] = useState('');
  const [there, setThere] = useState<string | null>(null);
  useEffect(() => {
    // they come with the reckoner, which is not loaded for this screen alone
    import('../reckoner/book.ts')
      .then(({ RULES_VERSION }) => setHere(RULES_VERSION))
      .catch(() => {});
    // out of reach: nothing is said of the other side
    rulesThere().then(setThere, () => {});
  }, []);
  return <p>{rulesWords(here, there)}</p>;
}
