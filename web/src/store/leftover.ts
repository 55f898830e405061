// Workshops that this browser belonged to before. What they never got is still here.
import { isCurves } from './curves.ts';
import { Phone } from './phone.ts';

const NAMED = /^bucktail-(.+)$/;

// Opened stores of other workshops that hold something unsent; the caller closes them.
export async function leftBehind(current: string): Promise<Phone[]> {
  // some browsers cannot list databases; there nothing can be found, and nothing is lost either
  const all = (await indexedDB.databases?.().catch(() => [])) ?? [];
  const found: Phone[] = [];
  for (const { name } of all) {
    const workshop = NAMED.exec(name ?? '')?.[1];
    if (!workshop || workshop === current || isCurves(workshop)) continue;
    const phone = await Phone.open(workshop);
    if (!phone) continue;
    if ((await phone.outboxCount()) + phone.photos.toSend().length > 0) found.push(phone);
    else phone.db.close();
  }
  return found;
}
