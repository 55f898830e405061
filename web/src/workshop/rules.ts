// What is said of the rules that the bench sums go by. Pure.

/** `here` is empty while they are not on this device; `there` is null while it is out of reach. */
export function rulesWords(here: string, there: string | null): string {
  if (!here) return 'Rules of the bench sums: not on this device yet.';
  const own = `Rules of the bench sums: ${here}`;
  if (there === null) return `${own}.`;
  return there === here
    ? `${own}, the same as the workshop computer.`
    : `${own}. The workshop computer has others, ${there}: close Bucktail and open it again within reach of it.`;
}
