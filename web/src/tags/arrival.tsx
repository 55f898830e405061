// How a thing's screen was reached: by which tag, and whether that tag is still the one to use.
import { effect, signal } from '@preact/signals';
import { go, path } from '../shell/router.ts';
import { pathOf } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { grouped } from '../twins/tagcode.ts';

interface Arrival {
  path: string;
  id: string;
  code: string;
  note: string;
}
const arrival = signal<Arrival | null>(null);

effect(() => {
  const now = path.value;
  const last = arrival.peek();
  if (last && last.path !== now) arrival.value = null;
});

/** Open the screen of the thing that a scanned tag is on; the scanner is not gone back to. */
export function arrive(thing: Row, code: string): void {
  const to = pathOf(thing);
  arrival.value = { path: to, id: thing.id, code, note: noteOf(thing, code) };
  go(to, true);
}

function noteOf(thing: Row, code: string): string {
  if (!thing.oldCodes.includes(code)) return '';
  const live = thing.codes.filter((one) => !thing.oldCodes.includes(one)).map(grouped);
  const start = `This tag, ${grouped(code)}, was replaced`;
  return live.length ? `${start} by ${live.join(' and ')}.` : `${start}.`;
}

/** The tag by which the open screen of this thing was reached; null where it was not scanned. */
export function scannedCode(id: string): string | null {
  return arrival.value?.id === id ? arrival.value.code : null;
}

/** Stands under the title of the thing's screen. */
export function ArrivalNote() {
  const note = arrival.value?.note;
  return note ? <p class="note">{note}</p> : null;
}
