import { type Random, randomStream } from '../numerics/random.ts';
import { type Digging, diggingIn } from './digging.ts';
import type { Group } from './emergence.ts';
import type { Fate } from './fate.ts';
import type { Clutch } from './laying.ts';
import { type SandAbove, sandAbove } from './surface.ts';

/** What the people wrote down of when a nest was laid. */
export type LayRecord =
  | { readonly kind: 'seen'; readonly night: number }
  | { readonly kind: 'between'; readonly night: number; readonly latest: number }
  | { readonly kind: 'unknown' };

/** A nest as the people of the beach follow it: what is true of it, and what they know. */
export interface KnownNest {
  readonly clutch: Clutch;
  readonly fate: Fate;
  readonly layRecord: LayRecord;
  /** The night whose dawn it was found at: nobody visits it before. */
  readonly found: number;
  /** All that came out of it, in order. */
  readonly groups: readonly Group[];
  readonly sand: SandAbove;
  readonly digging: Digging;
  /** How much the newest signs promise, 0 nothing .. 1 surely, and the night they were seen. */
  promise: number;
  promised: number;
  /** The night on which people know it boiled, by sight or by tracks at dawn. */
  boilKnown: number | null;
  /** The last dawn anyone looked at it. */
  lookedAtDawn: number;
  /** When its record ends, once that is settled, and why. */
  ends: { readonly night: number; readonly counted: boolean } | null;
}

/**
 * How the laying of each nest was recorded. A patrol sees nearly all tracks of the night; a missed
 * morning leaves a range; a nest or two in a hundred is found only weeks later, from 20 nests on
 * at least one.
 */
export function knownNests(
  seed: number,
  nests: readonly { readonly clutch: Clutch; readonly fate: Fate }[],
): KnownNest[] {
  const pick = randomStream(seed, 'lay records');
  const unknown = new Set<number>();
  const unknowns = nests.length < 20 ? 0 : Math.max(1, Math.round(nests.length * 0.013));
  while (unknown.size < unknowns) unknown.add(pick.below(nests.length));
  return nests.map(({ clutch, fate }, index) => {
    const random = randomStream(seed, 'record of laying', index);
    const layRecord = recordOfLaying(random, clutch, unknown.has(index));
    return {
      clutch,
      fate,
      layRecord,
      found: foundOn(random, clutch, fate, layRecord),
      groups: groupsOf(fate),
      sand: sandAbove(seed, clutch, fate),
      digging: diggingIn(seed, clutch, fate),
      promise: 0,
      promised: 0,
      boilKnown: null,
      lookedAtDawn: 0,
      ends: null,
    };
  });
}

function recordOfLaying(random: Random, clutch: Clutch, unknown: boolean): LayRecord {
  if (unknown) return { kind: 'unknown' };
  if (clutch.relocated || !random.chance(0.05)) return { kind: 'seen', night: clutch.laid };
  const width = 1 + random.below(4);
  const night = clutch.laid - random.below(width + 1);
  return { kind: 'between', night, latest: night + width };
}

function foundOn(random: Random, clutch: Clutch, fate: Fate, record: LayRecord): number {
  switch (record.kind) {
    case 'seen':
      return record.night;
    case 'between':
      return record.latest;
    case 'unknown': {
      const end =
        fate.outcome === 'boil' ? Math.floor(fate.emergence.boil.moment) : clutch.laid + 50;
      return Math.min(end - 3, clutch.laid + 4 + random.below(42));
    }
  }
}

function groupsOf(fate: Fate): Group[] {
  if (fate.outcome === 'lost') return [];
  const { before, boil, after } = fate.emergence;
  return [...before, boil, ...after];
}
