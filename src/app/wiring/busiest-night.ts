import { type Night, addNights } from '../../core/domain/night.ts';

/** The middle of the seven nights with the most boils; null when there are none. */
export function busiestNight(boils: readonly Night[]): Night | null {
  const counts = new Map<Night, number>();
  for (const night of boils) counts.set(night, (counts.get(night) ?? 0) + 1);
  let best: { night: Night; count: number } | null = null;
  for (const night of [...counts.keys()].sort((a, b) => a - b)) {
    let count = 0;
    for (let k = -3; k <= 3; k++) count += counts.get(addNights(night, k)) ?? 0;
    if (best === null || count > best.count) best = { night, count };
  }
  return best?.night ?? null;
}
