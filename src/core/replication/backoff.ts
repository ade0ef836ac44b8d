const shortest_ms = 2_000;
const longest_ms = 5 * 60_000;

/**
 * How long to wait before the next try, milliseconds, after some tries in a row that failed:
 * doubling from 2 s to 5 min, and then anywhere between half of that and all of it, so that devices
 * that lost the hub together do not come back together. `luck` is in [0, 1). "Equal jitter" of
 * M. Brooker, Exponential Backoff and Jitter (2015), from memory.
 */
export function backoff_ms(failures: number, luck: number): number {
  const most = Math.min(longest_ms, shortest_ms * 2 ** Math.max(0, failures - 1));
  return Math.round(most / 2 + (most / 2) * luck);
}
