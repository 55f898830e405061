// One part: what it is, how far it is, and the one button that says what it will record.
import { OpenForm } from '../findings/OpenForm.tsx';
import { Frame } from '../shell/Frame.tsx';
import { path } from '../shell/router.ts';
import { useCard } from '../shell/things.ts';
import type { Card } from '../store/phone.ts';
import { EditPart } from './EditPart.tsx';
import { LineForm } from './LineForm.tsx';
import { MetalForm } from './MetalForm.tsx';
import { NeedsForm } from './NeedsForm.tsx';
import './part.css';
import { PartAtWork } from './PartAtWork.tsx';
import { RetireForm } from './RetireForm.tsx';
import { SplitForm } from './SplitForm.tsx';

export interface SheetProps {
  id: string;
  card: Card;
}

// What can be changed about a part, each at an address of its own: /part/ID/needs.
const SHEETS: Record<string, (props: SheetProps) => preact.JSX.Element> = {
  needs: NeedsForm,
  edit: EditPart,
  metal: MetalForm,
  split: SplitForm,
  retire: RetireForm,
  finding: ({ id }) => <OpenForm id={id} />,
  line: ({ id }) => <LineForm id={null} first={id} />,
};

export function PartScreen({ id }: { id: string }) {
  const card = useCard(id);
  if (card === undefined) return <Frame title="…">{null}</Frame>;
  if (card?.state.sort !== 'part') return <Unknown />;
  const Sheet = SHEETS[path.value.split('/')[3] ?? ''];
  const name = String(card.state.name);
  if (!Sheet) return <PartAtWork id={id} card={card} />;
  return (
    <Frame title={name}>
      <Sheet id={id} card={card} />
      <p class="way-back">
        <a class="button" href={`/part/${id}`}>
          Back to {name}
        </a>
      </p>
    </Frame>
  );
}

function Unknown() {
  return (
    <Frame title="Not on this phone">
      <p>
        This part is not on this phone, or not yet. It comes with the next contact to the workshop
        computer, if it is in the record.
      </p>
      <a class="button main" href="/parts">
        All parts
      </a>
    </Frame>
  );
}
