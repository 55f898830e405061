// Things in order without putting all of them in order: the first few of thousands. Pure.

/** The first few of all that are offered, in order. The others are only counted. */
export class First<T> {
  readonly items: T[] = [];
  offered = 0;

  constructor(
    private readonly most: number,
    private readonly compare: (one: T, other: T) => number,
  ) {}

  get full(): boolean {
    return this.items.length >= this.most;
  }

  get last(): T | undefined {
    return this.items[this.items.length - 1];
  }

  /** True where it would be among the first so far. */
  takes(item: T): boolean {
    const last = this.items[this.most - 1];
    return this.most > 0 && (last === undefined || this.compare(item, last) < 0);
  }

  offer(item: T): void {
    this.offered += 1;
    if (!this.takes(item)) return;
    let [low, high] = [0, this.items.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.compare(item, this.items[middle] as T) < 0) high = middle;
      else low = middle + 1;
    }
    this.items.splice(low, 0, item);
    if (this.items.length > this.most) this.items.pop();
  }
}

/**
 * The things in order, one at a time. Only what is taken is put in order: about as much work as
 * looking at each thing twice, and a little for each that is taken. `items` is shuffled.
 */
export function* inOrder<T>(items: T[], compare: (one: T, other: T) => number): Generator<T> {
  for (let at = (items.length >> 1) - 1; at >= 0; at -= 1) sink(items, at, compare);
  while (items.length > 0) {
    const first = items[0] as T;
    const last = items.pop() as T;
    if (items.length > 0) {
      items[0] = last;
      sink(items, 0, compare);
    }
    yield first;
  }
}

/** Lets the thing at `from` go down a heap (the least on top) to where it belongs. */
function sink<T>(heap: T[], from: number, compare: (one: T, other: T) => number): void {
  const thing = heap[from] as T;
  let at = from;
  for (let below = 2 * at + 1; below < heap.length; below = 2 * at + 1) {
    const right = below + 1;
    if (right < heap.length && compare(heap[right] as T, heap[below] as T) < 0) below = right;
    if (compare(heap[below] as T, thing) >= 0) break;
    heap[at] = heap[below] as T;
    at = below;
  }
  heap[at] = thing;
}
