import { describe, expect, test } from 'vitest';
import { type PhotoShelf, type PhotoWire, sendPhotos } from './photos.ts';
import { OutOfReach, Refused } from './wire.ts';

class Shelf implements PhotoShelf {
  doubted = false;
  kept = new Map<string, { bytes: Blob; sent: boolean }>();
  constructor(...digests: string[]) {
    for (const digest of digests) this.kept.set(digest, { bytes: new Blob([digest]), sent: false });
  }
  toSend(): string[] {
    return [...this.kept].filter(([, one]) => !one.sent).map(([digest]) => digest);
  }
  async bytes(digest: string) {
    return this.kept.get(digest)?.bytes ?? null;
  }
  async sent(digest: string) {
    const one = this.kept.get(digest);
    if (one) one.sent = true;
  }
  async missed(digest: string) {
    const one = this.kept.get(digest);
    if (one) one.sent = false;
  }
}

class Computer implements PhotoWire {
  has = new Map<string, string>();
  asked = 0;
  constructor(
    private readonly fails: Record<string, Error> = {},
    private readonly misses: string[] = [],
  ) {}
  async put(digest: string, bytes: Blob) {
    if (this.fails[digest]) throw this.fails[digest];
    this.has.set(digest, await bytes.text());
  }
  async missing() {
    this.asked += 1;
    return this.misses;
  }
}

describe('sending photos', () => {
  test('each is sent with its own bytes and marked only then', async () => {
    const shelf = new Shelf('a', 'b');
    const computer = new Computer();
    expect(await sendPhotos(shelf, computer)).toEqual({ sent: 2, left: 0, refused: [] });
    expect([...computer.has]).toEqual([
      ['a', 'a'],
      ['b', 'b'],
    ]);
    expect(shelf.toSend()).toEqual([]);
    expect(computer.asked).toBe(0);
  });

  test.each([
    ['a computer out of reach', new OutOfReach('gone')],
    ['a full disk', new Refused(507, 'disk full', 'The disk is full.')],
  ])('%s leaves what is not sent on the phone', async (_name, problem) => {
    const shelf = new Shelf('a', 'b', 'c');
    await expect(sendPhotos(shelf, new Computer({ b: problem }))).rejects.toBe(problem);
    expect(shelf.toSend()).toEqual(['b', 'c']);
    expect((await sendPhotos(shelf, new Computer())).sent).toBe(2);
  });

  test('one that arrives damaged stays, and the others go on', async () => {
    const shelf = new Shelf('a', 'b', 'c');
    const damaged = new Refused(422, 'damaged', 'The photo arrived damaged.');
    const done = await sendPhotos(shelf, new Computer({ b: damaged }));
    expect(done).toEqual({ sent: 2, left: 1, refused: ['The photo arrived damaged.'] });
    expect(shelf.toSend()).toEqual(['b']);
  });

  test('it gives way between two photos to what is more urgent', async () => {
    const shelf = new Shelf('a', 'b', 'c');
    const done = await sendPhotos(shelf, new Computer(), () => !shelf.toSend().includes('a'));
    expect(done).toEqual({ sent: 1, left: 2, refused: [] });
  });

  test('what the computer lost goes out again, once it is asked', async () => {
    const shelf = new Shelf('a', 'b');
    await sendPhotos(shelf, new Computer());
    shelf.doubted = true;
    const restored = new Computer({}, ['b', 'elsewhere']);
    expect((await sendPhotos(shelf, restored)).sent).toBe(1);
    expect([...restored.has.keys()]).toEqual(['b']);
    await sendPhotos(shelf, restored);
    expect(restored.asked).toBe(1);
  });

  test('while the question cannot be asked it stays open', async () => {
    const shelf = new Shelf('a');
    shelf.doubted = true;
    const away = new Computer();
    away.missing = () => Promise.reject(new OutOfReach('gone'));
    await expect(sendPhotos(shelf, away)).rejects.toBeInstanceOf(OutOfReach);
    expect(shelf.doubted).toBe(true);
  });
});
