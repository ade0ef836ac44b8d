import type { Night } from '../domain/night.ts';
import type { Visit } from '../domain/visit.ts';

/** Factors on the odds of never (guesses, anchored on measured egg losses); the worst storm holds. */
export const storm = { once: 1.3, again: 2.5, buried: 5 };
export const predated = 1.5;

/** What befell a nest, as it bears on whether it will ever come up. */
export interface Mishaps {
  /** Factor on the odds that it never comes up. */
  readonly neverFactor: number;
  /** The first night on which it can no longer come up, because the sea took it; else null. */
  readonly goneFrom: Night | null;
  readonly visits: readonly Visit[];
}

/** Sums up the mishaps among visits: washovers on different nights count as repeated. */
export function mishapsOf(visits: readonly Visit[]): Mishaps {
  const washovers = new Set<Night>();
  let factor = 1;
  let predation = 1;
  let goneFrom: Night | null = null;
  const used: Visit[] = [];
  for (const visit of visits) {
    if (visit.mishap === null) continue;
    used.push(visit);
    switch (visit.mishap) {
      case 'washover':
        washovers.add(visit.night);
        factor = Math.max(factor, washovers.size > 1 ? storm.again : storm.once);
        break;
      case 'burial':
        factor = Math.max(factor, storm.buried);
        break;
      case 'predation':
        predation = predated;
        break;
      case 'washout': {
        const from = (visit.half === 'dawn' ? visit.night + 1 : visit.night) as Night;
        if (goneFrom === null || from < goneFrom) goneFrom = from;
        break;
      }
    }
  }
  return { neverFactor: factor * predation, goneFrom, visits: used };
}
