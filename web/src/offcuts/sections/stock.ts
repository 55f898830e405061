// All offcuts on this phone, as the search of section stock and the cut list take them.
import { useMemo } from 'preact/hooks';
import { openedPhone, version } from '../../shell/state.ts';
import { row, rows } from '../../shell/things.ts';
import { pieceOfRow } from '../piece.ts';
import type { Offcut } from '../wanted.ts';

export function useOffcuts(): Offcut[] {
  const now = version.value;
  return useMemo(() => {
    const { curves } = openedPhone();
    return rows('offcut').map((one) => pieceOfRow(one, curves, row));
  }, [now]);
}
