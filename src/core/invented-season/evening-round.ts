import type { Random } from '../numerics/random.ts';
import { type BeachClock, HOUR, MINUTE } from './beach-clock.ts';
import type { InventedSpecies } from './development.ts';
import type { Pair } from './duty.ts';
import type { KnownNest } from './known-nests.ts';
import {
  type Air,
  expectMore,
  hopeFor,
  lookByEvening,
  type VisitRecord,
  watchAt,
} from './visit-record.ts';
import type { Volunteer } from './volunteers.ts';

/** The age at which people on this beach expect a nest, nights (common practice, no source). */
const EXPECTED_AGE: Record<InventedSpecies, number> = {
  'Caretta caretta': 55,
  'Chelonia mydas': 55,
  'Dermochelys coriacea': 63,
};

/**
 * One evening: pairs walk to some nests that are old enough and a few that are not, look and
 * listen, and then each sits at the nest its calendar and its ears favour. No odds are worked out.
 */
export function walkEvening(
  random: Random,
  night: number,
  nests: readonly KnownNest[],
  pairs: readonly Pair[],
  clock: BeachClock,
  air: Air,
): VisitRecord[] {
  if (pairs.length === 0) return [];
  const records: VisitRecord[] = [];
  const sunset = clock.sunset(night);
  const waiting = nests.filter((known) => known.boilKnown === null && known.found < night);

  const walked = spread(pairs, favourites(random, night, waiting, pairs.length * 3));
  for (const { pair, known, turn } of walked) {
    const moment = sunset + (12 + 17 * turn + random.between(0, 9)) * MINUTE;
    records.push(
      lookByEvening(random, known, random.chance(0.7) ? pair.first : pair.second, moment, air),
    );
  }

  const hoped = waiting
    .map((known) => ({ known, hope: sittingHope(night, known) + random.between(0, 0.2) }))
    .filter(({ hope }) => hope > 0.25)
    .sort((one, other) => other.hope - one.hope)
    .map(({ known }) => known);
  for (const { pair, known } of spread(pairs, hoped.slice(0, pairs.length))) {
    const from = sunset + random.between(55, 100) * MINUTE;
    records.push(lookByEvening(random, known, pair.first, from, air));
    const hours = Math.max(1, Math.min(6, random.gamma(2.9, 9)));
    const sit = watchAt(random, known, pair.first, from + 10 * MINUTE, hours, air);
    records.push(sit);
    const emerged = sit.watch?.emerged ?? 0;
    if (emerged >= 10) known.boilKnown = night;
    else if (emerged > 0) expectMore(known, night, 0.9);
  }

  for (const known of nests) {
    if (known.boilKnown === null || known.boilKnown >= night || !random.chance(0.1)) continue;
    const { first } = random.choice(pairs);
    const from = sunset + random.between(0.6, 1.4) * HOUR;
    records.push(watchAt(random, known, first, from, random.between(0.7, 1.5), air));
  }
  return records;
}

/** Nights by which a nest is older than expected; null when nobody knows when it was laid. */
function nightsOver(night: number, { clutch, layRecord }: KnownNest): number | null {
  switch (layRecord.kind) {
    case 'seen':
      return night - layRecord.night - EXPECTED_AGE[clutch.species];
    case 'between':
      return night - (layRecord.night + layRecord.latest) / 2 - EXPECTED_AGE[clutch.species];
    case 'unknown':
      return null;
  }
}

/** The nests a round goes to: the most due, with a few of the others (one in eight). */
function favourites(
  random: Random,
  night: number,
  nests: readonly KnownNest[],
  most: number,
): KnownNest[] {
  const due: { known: KnownNest; wish: number }[] = [];
  const others: KnownNest[] = [];
  for (const known of nests) {
    const over = nightsOver(night, known);
    const calendar = over === null ? 0.35 : Math.exp(-((over / (over > 0 ? 12 : 7)) ** 2));
    const wish = calendar + hopeFor(known, night) + random.between(0, 0.5);
    if (over === null || over >= -10) due.push({ known, wish });
    else others.push(known);
  }
  due.sort((one, other) => other.wish - one.wish);
  const chosen = due.slice(0, most).map(({ known }) => known);
  const few = others.length === 0 ? 0 : random.binomial(most, 0.125);
  for (let extra = 0; extra < few; extra++) {
    const other = random.choice(others);
    if (!chosen.includes(other)) chosen.push(other);
  }
  return chosen;
}

/** Calendar habit and signs together. */
function sittingHope(night: number, known: KnownNest): number {
  const over = nightsOver(night, known);
  const calendar = over === null ? 0.1 : 0.5 * Math.exp(-(((over + 1) / 5) ** 2));
  return calendar + hopeFor(known, night);
}

/** Deals nests to pairs whose people go to that zone, or else to whoever has the fewest. */
function spread(pairs: readonly Pair[], nests: readonly KnownNest[]) {
  const loads = pairs.map((pair) => ({ pair, turn: 0 }));
  return nests.flatMap((known) => {
    const willing = loads.filter(({ pair: { first } }) => goesTo(first, known.clutch.zone.zone));
    const free = (willing.length > 0 ? willing : loads).reduce<(typeof loads)[number] | null>(
      (least, load) => (least === null || load.turn < least.turn ? load : least),
      null,
    );
    return free === null ? [] : [{ pair: free.pair, known, turn: free.turn++ }];
  });
}

function goesTo(person: Volunteer, zone: string): boolean {
  return person.zones.length === 0 || person.zones.includes(zone);
}
