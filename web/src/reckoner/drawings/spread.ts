// Labels beside what they name: moved apart until none stands on another, in their order, each as
// near to its place as the others let it.

interface Cluster {
  first: number; // the index of its first block
  tall: number;
  /** the sum of where its blocks would each have it begin */
  wishes: number;
  count: number;
}

/**
 * The middles of blocks of these heights, wanted at `wanted` (rising), none above `least`.
 * Blocks that would overlap move together, about the mean of where they belong.
 */
export function spread(wanted: readonly number[], tall: readonly number[], least = -1e9): number[] {
  const clusters: Cluster[] = [];
  for (const [at, middle] of wanted.entries()) {
    const own = tall[at] ?? 0;
    let next: Cluster = { first: at, tall: own, wishes: middle - own / 2, count: 1 };
    for (let last = clusters.at(-1); last && top(last, least) + last.tall > top(next, least); ) {
      const wishes = last.wishes + next.wishes - next.count * last.tall;
      next = {
        first: last.first,
        tall: last.tall + next.tall,
        wishes,
        count: last.count + next.count,
      };
      clusters.pop();
      last = clusters.at(-1);
    }
    clusters.push(next);
  }
  return clusters.flatMap((cluster) => {
    let y = top(cluster, least);
    return tall.slice(cluster.first, cluster.first + cluster.count).map((own) => {
      y += own;
      return y - own / 2;
    });
  });
}

function top({ wishes, count }: Cluster, least: number): number {
  return Math.max(wishes / count, least);
}
