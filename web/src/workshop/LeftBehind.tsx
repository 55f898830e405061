// This browser may have belonged to another workshop before, and hold what that one never got.
import { useEffect, useState } from 'preact/hooks';
import { openedPhone } from '../shell/state.ts';
import { leftBehind } from '../store/leftover.ts';
import type { Phone } from '../store/phone.ts';
import { SaveUnsent } from './SaveUnsent.tsx';

interface Left {
  phone: Phone;
  count: number;
}

export function LeftBehind() {
  const [left, setLeft] = useState<Left[]>([]);
  const { workshop } = openedPhone().identity;
  useEffect(() => {
    let opened: Phone[] = [];
    let current = true;
    const look = async (): Promise<void> => {
      opened = await leftBehind(workshop);
      const found: Left[] = [];
      for (const phone of opened)
        found.push({
          phone,
          count: (await phone.outboxCount()) + phone.photos.toSend().length,
        });
      if (current) setLeft(found);
    };
    void look();
    return () => {
      current = false;
      for (const phone of opened) phone.db.close();
    };
  }, [workshop]);
  return (
    <>
      {left.map(({ phone, count }) => (
        <section key={phone.identity.workshop} aria-label="From another workshop">
          <h2>From “{phone.identity.name}”</h2>
          <p>
            This device belonged to another workshop of that name, and {count} of its entries and
            photos were never sent there. Nothing of them is lost: they can go there as a file.
          </p>
          <SaveUnsent phone={phone} />
        </section>
      ))}
    </>
  );
}
