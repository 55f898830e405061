// Shows a pairing code for one more device, until it has joined or the code runs out.
import { useEffect, useRef, useState } from 'preact/hooks';
import { tick } from '../shell/sounds.ts';
import { clockLeft } from './ages.ts';
import { symbolPath } from './symbol.ts';
import { useNow } from './useNow.ts';
import { type Device, type Offer, offerPairing } from './workshopwire.ts';

const LOOK_EVERY_MS = 2500;

interface Props {
  all: Device[];
  again: () => Promise<Device[]>;
}
interface Shown {
  offer: Offer;
  until: number; // by this device's clock
  before: Set<string>; // the pairings there were: device and moment
}

function pairings(all: Device[]): Set<string> {
  return new Set(all.map((device) => `${device.id} ${device.paired_at}`));
}

export function PairAnother({ all, again }: Props) {
  const [shown, setShown] = useState<Shown | null>(null);
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const start = async (): Promise<void> => {
    setBusy(true);
    setSaid('');
    try {
      const before = pairings(await again());
      const offer = await offerPairing();
      setShown({ offer, until: Date.now() + offer.for_ms, before });
    } catch (problem) {
      setSaid(problem instanceof Error ? problem.message : String(problem));
    }
    setBusy(false);
  };
  const joined = shown && all.find((one) => !shown.before.has(`${one.id} ${one.paired_at}`));
  useEffect(() => {
    if (!joined) return;
    tick();
    setSaid(`${joined.name} has joined.`);
    setShown(null);
  }, [joined]);
  return (
    <div class="pair-another">
      {shown && <Code {...shown} again={again} done={() => setShown(null)} />}
      <output class="outcome">{said && <p class="note">{said}</p>}</output>
      {!shown && (
        <button type="button" disabled={busy} onClick={start}>
          Pair another device
        </button>
      )}
    </div>
  );
}

function Code({ offer, until, again, done }: Shown & Pick<Props, 'again'> & { done: () => void }) {
  const left = until - useNow(1000);
  const over = left <= 0;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.scrollIntoView();
    heading.current?.focus({ preventScroll: true });
  }, []);
  useEffect(() => {
    if (over) return;
    const timer = setInterval(() => void again(), LOOK_EVERY_MS);
    return () => clearInterval(timer);
  }, [over, again]);
  const side = offer.rows.length;
  return (
    <div class="pairing-code">
      <h3 ref={heading} tabIndex={-1}>
        One more device
      </h3>
      {over ? (
        <p class="note" role="status">
          This code has run out.
        </p>
      ) : (
        <>
          <svg
            viewBox={`0 0 ${side} ${side}`}
            role="img"
            aria-label="Pairing code to scan"
            shape-rendering="crispEdges"
          >
            <rect class="light" width={side} height={side} />
            <path class="dark" d={symbolPath(offer.rows)} />
          </svg>
          <p class="typed code">{offer.typed}</p>
          <p role="timer">Good for one device, for {clockLeft(left)}.</p>
          <ol>
            {offer.trust && (
              <li>
                If it has never opened this workshop, first open{' '}
                <span class="url">{offer.trust}</span> on it and follow the steps there.
              </li>
            )}
            <li>
              Open Bucktail on it: <span class="url">{location.origin}</span>
            </li>
            <li>Scan this code with it, or type the letters and digits below it.</li>
          </ol>
        </>
      )}
      <button type="button" onClick={done}>
        Close
      </button>
    </div>
  );
}
