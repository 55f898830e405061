// The workshop's allowances as the sums take them.
import type { Allowances } from './allowances.ts';
import type { PlanSaw } from './cutlist.ts';

export function sawOf({ kerf, dress_off, shortest }: Allowances): PlanSaw {
  return { kerf_nm: kerf.nm, dress_off_nm: dress_off.nm, shortest_nm: shortest.nm };
}
