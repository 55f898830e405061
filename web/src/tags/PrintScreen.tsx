// Tags on paper: new blank ones, or blank ones again. The workshop's computer draws them, because
// only it can keep new codes unlike all others.
import { useEffect, useRef, useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { NumberField } from '../parts/Fields.tsx';
import { Frame } from '../shell/Frame.tsx';
import { sync } from '../shell/state.ts';
import { knownTags } from './known.ts';
import {
  MOST,
  type Paper,
  type Printed,
  printSheet,
  type SheetWish,
  SIZES,
  wishOf,
  wrongWith,
} from './printing.ts';
import './tags.css';

const FIRST: SheetWish = {
  which: 'new',
  count: 21,
  size: 'normal',
  paper: 'a4',
  width: 50,
  height: 25,
  dpi: '300',
  skip: 0,
};
let last = FIRST; // the printer is the same next time

export function PrintScreen() {
  const [wish, setWish] = useState(last);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState('');
  const [printed, setPrinted] = useState<Printed | null>(null);
  const blank = [...knownTags()].filter(([, thing]) => thing === null).map(([code]) => code);
  const change = (more: Partial<SheetWish>): void => {
    setWish((now) => ({ ...now, ...more }));
    setPrinted(null);
  };
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    last = wish;
    const wrong = wrongWith(wish, blank);
    setProblem(wrong);
    if (wrong) return;
    setBusy(true);
    try {
      setPrinted(await printSheet(wishOf(wish, blank)));
      void sync(); // so that this device knows the new tags
    } catch (failed) {
      setProblem(failed instanceof Error ? failed.message : String(failed));
    }
    setBusy(false);
  };
  return (
    <Frame title="Print tags">
      <form onSubmit={submit}>
        <Which wish={wish} change={change} blank={blank.length} />
        <Label wish={wish} change={change} />
        {problem && (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
        {printed ? (
          <Ready printed={printed} />
        ) : (
          <button type="submit" class="main" disabled={busy}>
            {busy ? 'Drawing …' : 'Make the sheet'}
          </button>
        )}
      </form>
    </Frame>
  );
}

interface Part {
  wish: SheetWish;
  change: (more: Partial<SheetWish>) => void;
}

function Which({ wish, change, blank }: Part & { blank: number }) {
  return (
    <>
      {blank > 0 && (
        <Choices
          legend="Which tags?"
          name="which"
          value={wish.which}
          onChange={(which) => change({ which })}
          choices={[
            { value: 'new', label: 'new blank ones' },
            { value: 'again', label: `the ${blank} blank ones again` },
          ]}
        />
      )}
      {(wish.which === 'new' || !blank) && (
        <NumberField
          label="How many"
          hint={`at most ${MOST} at a time`}
          value={wish.count}
          onChange={(count) => change({ count })}
        />
      )}
    </>
  );
}

function Label({ wish, change }: Part) {
  return (
    <>
      <Choices
        legend="How large?"
        name="size"
        columns={1}
        value={wish.size}
        onChange={(size) => change({ size })}
        choices={SIZES}
      />
      <Choices
        legend="On what?"
        name="paper"
        columns={3}
        value={wish.paper}
        onChange={(paper: Paper) => change({ paper })}
        choices={[
          { value: 'a4', label: 'A4 sheet' },
          { value: 'letter', label: 'Letter sheet' },
          { value: 'roll', label: 'label roll' },
        ]}
      />
      {wish.paper === 'roll' ? (
        <div class="pair">
          <NumberField
            label="Width, mm"
            value={wish.width}
            onChange={(width) => change({ width })}
          />
          <NumberField
            label="Height, mm"
            value={wish.height}
            onChange={(height) => change({ height })}
          />
        </div>
      ) : (
        <NumberField
          label="Labels already used on the first sheet"
          value={wish.skip}
          onChange={(skip) => change({ skip })}
        />
      )}
      <Choices
        legend="The printer's dots an inch"
        hint="Its manual says. Every square of the code is then a whole number of dots."
        name="dpi"
        columns={3}
        value={wish.dpi}
        onChange={(dpi) => change({ dpi })}
        choices={[
          { value: '203', label: '203' },
          { value: '300', label: '300' },
          { value: '600', label: '600' },
        ]}
      />
    </>
  );
}

function Ready({ printed }: { printed: Printed }) {
  const [address, setAddress] = useState('');
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    place.current?.scrollIntoView({ block: 'center' });
    const made = URL.createObjectURL(printed.pdf);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [printed]);
  return (
    <div role="status" ref={place}>
      <p class="note">
        {printed.words} Print it at actual size (100 %). On a sheet the bar must measure 100 mm, or
        the printer has scaled it.
      </p>
      <a class="button main" href={address} download="tags.pdf" target="_blank" rel="noopener">
        Open the sheet
      </a>
    </div>
  );
}
