// "It is cut": one length of the cut list becomes its pieces and what stays, in one record.
import { ask } from '../../shell/feedback.tsx';
import { row } from '../../shell/things.ts';
import { useKeeping } from '../../shell/useKeeping.ts';
import { newId } from '../../store/ids.ts';
import { showLength, type Unit } from '../../twins/lengths.ts';
import { Problem } from '../Choices.tsx';
import type { Fields } from '../piece.ts';
import type { PlanSaw } from './cutlist.ts';
import { cutAsDrawn } from './cutting.ts';
import type { FromLength, WantedPiece } from './wants.ts';
import { isKept } from './words.ts';

interface Props {
  one: FromLength;
  saw: PlanSaw;
  unit: Unit;
  /** its pieces are made: they go from the list */
  onCut: (pieces: readonly WantedPiece[]) => void;
}

export function CutNow({ one, saw, unit, onCut }: Props) {
  const { problem, keep } = useKeeping();
  const { offcut, laid, pieces } = one;
  const cut = async (): Promise<void> => {
    const known = row(offcut.id);
    if (!known) return;
    const stays =
      laid.left && isKept(laid, saw)
        ? `${showLength(laid.left.length_nm, unit)} stays as an offcut of its own.`
        : 'Nothing of it stays.';
    const made = pieces.map(({ length }) => showLength(length, unit)).join(', ');
    const answer = await ask('Cut as drawn?', `${offcut.name} becomes ${made}. ${stays}`, [
      { label: 'Yes, it is cut', answer: 'yes', main: true },
      { label: 'No, not yet', answer: 'no' },
    ]);
    if (answer !== 'yes') return;
    const drafts = cutAsDrawn(one, known.fields as Fields, saw, unit, newId());
    const many = pieces.length === 1 ? 'one piece' : `${pieces.length} pieces`;
    if (await keep(drafts, `Cut into ${many}`)) onCut(pieces);
  };
  return (
    <div class="doing">
      <Problem text={problem} />
      <button type="button" onClick={cut}>
        It is cut as drawn
      </button>
    </div>
  );
}
