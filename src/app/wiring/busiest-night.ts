import { type Night, addNights, parseNight } from '../../core/domain/night.ts';

/** The middle of the seven nights with the most boils; null when there are none. */
export function busiestNight(boilNights: readonly string[]): Night | null {
  const boils = new Map<number, number>();
  for (const text of boilNights) {
    const night = parseNight(text);
    if (night !== null) boils.set(night, (boils.get(night) ?? 0) + 1);
  }
  let best: { night: Night; count: number } | null = null;
  for (const night of [...boils.keys()].sort((a, b) => a - b) as Night[]) {
    let count = 0;
    for (let k = -3; k <= 3; k++) count += boils.get(addNights(night, k)) ?? 0;
    if (best === null || count > best.count) best = { night, count };
  }
  return best?.night ?? null;
}
