// Two people wrote two answers before they had met. The first that reached the workshop's computer
// stands; whoever has the piece in hand settles it by saying it again.
import { personName } from '../parts/people.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import type { Answer, Claim, State } from '../twins/fold.ts';
import { valueWords } from './history.ts';
import { fieldWords } from './piece.ts';

export function Differences({ id, state }: { id: string; state: State }) {
  const answers = state.answers.filter((answer) => answer.about !== 'tag');
  return (
    <>
      {answers.map((answer) => (
        <Difference key={answer.about} id={id} answer={answer} />
      ))}
    </>
  );
}

function Difference({ id, answer }: { id: string; answer: Answer }) {
  const { about } = answer;
  const wish = about === 'reserved';
  const { problem, keep } = useKeeping();
  const settle = async ({ value }: Claim): Promise<void> => {
    const draft = wish
      ? { kind: 'offcut.reserved.v1', subject: id, body: value as { text: string | null } }
      : { kind: 'offcut.described.v1', subject: id, body: { [about]: value } };
    await keep([draft], `${wish ? 'For' : 'Settled'}: ${valueWords(about, value)}`);
  };
  return (
    <section
      class="problem difference"
      aria-label={`Two different answers on ${fieldWords(about)}`}
    >
      <p>
        Two different answers on {fieldWords(about)}.{' '}
        {wish
          ? 'The first to reach the workshop computer has it for now. Who is it for?'
          : 'Look at the piece: which is right?'}
      </p>
      {problem && <p role="alert">{problem}</p>}
      {different(answer.values).map((claim) => (
        <button type="button" key={claim.event} onClick={() => settle(claim)}>
          {valueWords(about, claim.value)} <small>said {personName(claim.by)}</small>
        </button>
      ))}
    </section>
  );
}

/** Three people may have said two things. */
function different(claims: Claim[]): Claim[] {
  const seen = new Set<string>();
  return claims.filter(({ value }) => {
    const text = JSON.stringify(value);
    return !seen.has(text) && seen.add(text);
  });
}
