import type { InventoryDays, Programme } from '../domain/programme.ts';
import type { Species } from '../domain/species.ts';

/** Where a number of days comes from. */
export type RuleSource = 'set for this species' | 'set here' | 'guess';

export interface DayRule {
  readonly days: number;
  readonly source: RuleSource;
}

/** When nests of a species are inventoried. */
export interface InventoryRules {
  /** Days after the night of the boil. */
  readonly afterEmergence: DayRule;
  /** Days after the lay night when nothing is known to have come up. */
  readonly withoutEmergence: DayRule;
}

/**
 * What holds until a programme says otherwise. Guesses from common practice, from memory: the number
 * on one's permit decides.
 */
const guess = { after_emergence: 3, without_emergence: 70 };
/** Leatherback nests take longer and are left longer (guess, as above). */
const guessLeatherback = { ...guess, without_emergence: 80 };

/** The rules for a species (null: not known) on a beach, each with where it comes from. */
export function inventoryRules(programme: Programme, species: Species | null): InventoryRules {
  const own = species === null ? undefined : programme.inventory_days_by_species?.[species];
  const fallback = species === 'Dermochelys coriacea' ? guessLeatherback : guess;
  const rule = (key: 'after_emergence' | 'without_emergence'): DayRule => {
    const forSpecies = daysOf(own, key);
    if (forSpecies !== null) return { days: forSpecies, source: 'set for this species' };
    const here = daysOf(programme.inventory_days, key);
    if (here !== null) return { days: here, source: 'set here' };
    return { days: fallback[key], source: 'guess' };
  };
  return { afterEmergence: rule('after_emergence'), withoutEmergence: rule('without_emergence') };
}

function daysOf(
  days: InventoryDays | undefined,
  key: 'after_emergence' | 'without_emergence',
): number | null {
  return days?.[key] ?? null;
}
