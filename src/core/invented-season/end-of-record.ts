import { randomStream } from '../numerics/random.ts';
import type { InventedSpecies } from './development.ts';
import type { KnownNest } from './known-nests.ts';

/** Nights after which a nest that nobody saw come up is given up (common practice, no source). */
const GIVEN_UP_AFTER: Record<InventedSpecies, number> = {
  'Caretta caretta': 78,
  'Chelonia mydas': 78,
  'Dermochelys coriacea': 88,
};

/**
 * When the people stop following a nest: three to five nights after a boil they know of, then
 * its contents are counted; or when it is long overdue. Null while it goes on.
 */
export function endOfRecord(seed: number, known: KnownNest, night: number): KnownNest['ends'] {
  const { clutch, boilKnown, found, layRecord } = known;
  const since = layRecord.kind === 'seen' ? layRecord.night : found;
  const overdue = night - since >= GIVEN_UP_AFTER[clutch.species];
  if (boilKnown === null && !overdue) return null;
  const random = randomStream(seed, 'end of record', clutch.index);
  if (boilKnown !== null)
    return { night: boilKnown + 3 + random.below(3), counted: random.chance(0.96) };
  if (night - since < GIVEN_UP_AFTER[clutch.species] + random.below(6)) return null;
  // A nest that has yet to come up is left alone: the hollow and the sounds speak for it.
  return { night, counted: !stillToCome(known, night) && random.chance(0.85) };
}

function stillToCome({ fate }: KnownNest, night: number): boolean {
  return fate.outcome === 'boil' && fate.emergence.boil.moment > night;
}
