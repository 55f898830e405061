// Closing a finding: as what its decision says, or because it was no fault. The rule is the one by
// which the record itself counts it as closed (twins/findings.ts).
import { useState } from 'preact/hooks';
import { Choices, Problem } from '../offcuts/Choices.tsx';
import { Photos } from '../photos/Photos.tsx';
import { go } from '../shell/router.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { standing } from '../twins/facts.ts';
import { type ClosedAs, groundOf, type Lack, lacking } from '../twins/findings.ts';
import type { FindingProps } from './FindingScreen.tsx';
import { decidedWords, ENDS, LACKING, OUTCOMES } from './words.ts';

export function CloseForm({ id, card }: FindingProps) {
  const { decided, photos } = card.state;
  const ends = (decided && ENDS[decided.decision]) ?? 'repaired';
  const [outcome, setOutcome] = useState<ClosedAs>(ends);
  const [evidence, setEvidence] = useState('');
  const [lacks, setLacks] = useState<Lack[]>([]);
  const { problem, keep } = useKeeping();
  const save = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const body = {
      outcome,
      decision: decided?.event ?? null,
      evidence: evidence.trim() || null,
    };
    const wanting = lacking(body, groundOf(standing(card.facts), photos));
    setLacks(wanting);
    if (wanting.length) return;
    if (await keep([{ kind: 'finding.closed.v1', subject: id, body }], OUTCOMES[outcome]))
      go(`/finding/${id}`, true);
  };
  return (
    <>
      <form class="stack" onSubmit={save} noValidate>
        <h2>Close it</h2>
        <p>{decided ? `${decidedWords(decided)}.` : 'Nothing is decided yet.'}</p>
        <Choices
          legend="How is it closed?"
          name="outcome"
          columns={1}
          choices={[ends, 'no fault' as const].map((value) => ({ value, label: OUTCOMES[value] }))}
          value={outcome}
          onChange={setOutcome}
        />
        <label>
          What shows it?
          <small>a work order, a letter, a drawing; or a photo, below</small>
          <input
            value={evidence}
            maxLength={4000}
            autocomplete="off"
            onInput={(event) => setEvidence(event.currentTarget.value)}
          />
        </label>
        <Problem
          text={
            lacks.length
              ? `It stays open. It wants ${lacks.map((one) => LACKING[one]).join('; ')}.`
              : problem
          }
        />
        <button type="submit" class="main">
          Close it
        </button>
        {lacks.includes('decision') || lacks.includes('name') ? (
          <a class="button" href={`/finding/${id}/decide`}>
            Say what was decided
          </a>
        ) : null}
        <a class="button" href={`/finding/${id}`}>
          Back, leave it open
        </a>
      </form>
      <Photos id={id} state={card.state} />
    </>
  );
}
