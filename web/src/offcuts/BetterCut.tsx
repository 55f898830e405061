// A better place for the cut, from the workshop's computer: it tries many and looks what still fits
// in what stays. Only asked for; where the computer is out of reach the drawing above stands.
import { useState } from 'preact/hooks';
import { OutOfReach, Refused } from '../sync/wire.ts';
import type { Unit } from '../twins/lengths.ts';
import { Problem } from './Choices.tsx';
import { OddCutDrawing } from './OddCutDrawing.tsx';
import { askForPlaces, type Place } from './places.ts';
import type { Offcut, Outline, Want } from './wanted.ts';
import { areaText, measuredText } from './words.ts';

interface Props {
  offcut: Offcut;
  want: Want;
  unit: Unit;
}

export function BetterCut({ offcut, want, unit }: Props) {
  const [places, setPlaces] = useState<Place[] | null>(null);
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const look = async (): Promise<void> => {
    setBusy(true);
    setProblem('');
    try {
      setPlaces(await askForPlaces(offcut.id, want));
    } catch (reason) {
      if (!(reason instanceof OutOfReach || reason instanceof Refused)) throw reason;
      setProblem(`${reason.message} The cut drawn above stands.`);
    } finally {
      setBusy(false);
    }
  };
  if (places)
    return (
      <>
        {places.map((place, at) => (
          <Suggested key={place.reason} {...{ offcut, place, want, unit }} second={at > 0} />
        ))}
        {!places.length && <p>The workshop computer found no better cut.</p>}
      </>
    );
  return (
    <>
      <Problem text={problem} />
      <button type="button" onClick={look} disabled={busy}>
        {busy ? 'Looking for a better cut …' : 'A better cut (workshop computer)'}
      </button>
    </>
  );
}

function Suggested(props: Props & { place: Place; second: boolean }) {
  const { offcut, place, want, unit, second } = props;
  const { corners, left_um2, reason } = place;
  const show = (nm: number): string => measuredText(nm, unit, false);
  const words = `${reason} Leaves ${areaText(left_um2, unit)}.`;
  const [[x0, y0], [x1, y1]] = corners;
  const upright = Math.abs(x1 - x0) < 1000 || Math.abs(y1 - y0) < 1000;
  const blank = `${show(want.width_nm)} × ${show(want.height_nm)}`;
  return (
    <section aria-label={second ? 'A second cut' : 'A better cut'}>
      <h4>{second ? 'Or like this' : 'A better cut'}</h4>
      <OddCutDrawing
        shape={offcut.shape as Outline}
        grain={offcut.grain}
        cut={{ corners, upright, stays: null, blank, staysText: '' }}
        show={show}
        whole={(nm) => measuredText(nm, unit)}
        words={words}
      />
      <p>{words}</p>
    </section>
  );
}
