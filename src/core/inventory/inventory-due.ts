import { type Night, addNights } from '../domain/night.ts';
import type { DayRule, InventoryRules } from './inventory-rules.ts';

/** When a nest is to be inventoried. Dates are nights: the day is that of the night's date. */
export type InventoryDue =
  | { readonly kind: 'counted'; readonly on: Night }
  /** Nothing is left to count. */
  | { readonly kind: 'washed out'; readonly on: Night }
  | {
      readonly kind: 'due';
      readonly on: Night;
      /** From what the day was reckoned: the boil, or the lay night while none is known. */
      readonly from: 'boil' | 'lay night';
      readonly rule: DayRule;
      /** Hatchlings were seen so shortly before that the day was put off. */
      readonly putOff: boolean;
    }
  | { readonly kind: 'not known'; readonly why: string };

/** What is known of a nest that decides when it is counted; null is "not known" or "did not happen". */
export interface NestSoFar {
  /** Last night on which it may have been laid. */
  readonly layNightLatest: Night | null;
  readonly boil: Night | null;
  /** Last night on which any hatchling was seen to come up. */
  readonly lastSeen: Night | null;
  readonly washedOut: Night | null;
  /** Date of the last inventory. */
  readonly counted: Night | null;
}

/**
 * The day of the inventory: so many days after the boil; without one, so many after the last night on
 * which the nest may have been laid. It waits for stragglers: it is never less than the days after a
 * boil since a hatchling was last seen.
 */
export function inventoryDue(nest: NestSoFar, rules: InventoryRules): InventoryDue {
  if (nest.counted !== null) return { kind: 'counted', on: nest.counted };
  if (nest.washedOut !== null) return { kind: 'washed out', on: nest.washedOut };
  const from = nest.boil === null ? 'lay night' : 'boil';
  const start = nest.boil ?? nest.layNightLatest;
  if (start === null) {
    const why = 'Neither the lay night nor a boil is known. The permit holder decides.';
    return { kind: 'not known', why };
  }
  const rule = from === 'boil' ? rules.afterEmergence : rules.withoutEmergence;
  const planned = addNights(start, rule.days);
  const soonest =
    nest.lastSeen === null ? planned : addNights(nest.lastSeen, rules.afterEmergence.days);
  const putOff = soonest > planned;
  return { kind: 'due', on: putOff ? soonest : planned, from, rule, putOff };
}
