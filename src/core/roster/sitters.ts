import { type Night, asNight, atWallClock, parseNight } from '../domain/night.ts';
import type { Watch } from '../domain/visit.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { inOrderOfWriting } from '../log/order.ts';
import type { Sitter } from './roster-question.ts';
import { nightMinute } from './roster-rules.ts';

/** Times people give are taken to the quarter of an hour, to the safe side. */
const quarter_ms = 15 * 60_000;

interface Offer {
  readonly from?: string | null | undefined;
  readonly to?: string | null | undefined;
}

/**
 * Everybody on record who may be placed, with the nights on which they can sit: what was said of a
 * night itself comes before the weekly pattern, and what was said last before what was said earlier.
 * Readers are left out. Somebody who offers nights without being on the list counts as inexperienced.
 */
export function sittersOf(record: SeasonRecord, nights: readonly Night[]): readonly Sitter[] {
  const [first] = nights;
  if (first === undefined) return [];
  const details = new Map(record.volunteers.map(({ fact }) => [fact.volunteer, fact.details]));
  const offers = offersByPerson(record);
  const patterns = new Map(record.weeklyPatterns.map(({ fact }) => [fact.volunteer, fact.details]));
  const sat = nightsSat(record, first);
  const names = [...new Set([...details.keys(), ...offers.keys(), ...patterns.keys()])].sort();
  return names
    .filter((name) => details.get(name)?.role !== 'reader')
    .map((name) => {
      const person = details.get(name);
      const free = new Map<Night, readonly Watch[]>();
      for (const night of nights) {
        const given = offers.get(name)?.get(night) ?? byPattern(patterns.get(name), night);
        const windows = given.flatMap((offer) => windowOf(offer, night, record.zone));
        if (windows.length > 0) free.set(night, windows);
      }
      return {
        name,
        experienced: person?.experience === 'trained' || person?.experience === 'lead',
        zones: person?.zones ?? [],
        mostShiftsWeek: person?.max_shifts_week ?? null,
        backToBack: person?.back_to_back ?? false,
        free,
        sat: [...(sat.get(name) ?? [])].sort((a, b) => a - b),
      };
    });
}

/** What each person said of single nights; an empty list = cannot. */
function offersByPerson(record: SeasonRecord): Map<string, Map<Night, Offer[]>> {
  const people = new Map<string, Map<Night, Offer[]>>();
  for (const { fact } of inOrderOfWriting(record.availability, ({ original }) => original)) {
    const night = parseNight(fact.details.night);
    if (night === null) continue;
    let nights = people.get(fact.volunteer);
    if (nights === undefined) people.set(fact.volunteer, (nights = new Map<Night, Offer[]>()));
    if (fact.details.available === false) nights.set(night, []);
    else nights.set(night, [...(nights.get(night) ?? []), fact.details]);
  }
  return people;
}

type Pattern = SeasonRecord['weeklyPatterns'][number]['fact']['details'];

function byPattern(pattern: Pattern | undefined, night: Night): readonly Offer[] {
  if (pattern === undefined) return [];
  const first = parseNight(pattern.first_night ?? '');
  const last = parseNight(pattern.last_night ?? '');
  if ((first !== null && night < first) || (last !== null && night > last)) return [];
  return pattern.days.filter(({ weekday }) => weekday === weekdayOf(night));
}

/** 1 = Monday .. 7 = Sunday; 1970-01-01, night 0, was a Thursday. */
export function weekdayOf(night: Night): number {
  return ((((night + 3) % 7) + 7) % 7) + 1;
}

function windowOf({ from, to }: Offer, night: Night, zone: string): Watch[] {
  const at = (clock: string): number => atWallClock(night, nightMinute(clock), zone);
  const [start, end] = [from ?? null, to ?? null];
  const from_ms = start === null ? -Infinity : Math.ceil(at(start) / quarter_ms) * quarter_ms;
  const to_ms = end === null ? Infinity : Math.floor(at(end) / quarter_ms) * quarter_ms;
  return to_ms > from_ms ? [{ from_ms, to_ms }] : [];
}

/** Nights before `first` on which each person noted a watch, or was to sit by a plan given out. */
function nightsSat(record: SeasonRecord, first: Night): Map<string, Set<Night>> {
  const sat = new Map<string, Set<Night>>();
  const add = (name: string, night: Night): void => {
    if (night >= first) return;
    const nights = sat.get(name);
    if (nights === undefined) sat.set(name, new Set([night]));
    else nights.add(night);
  };
  for (const { visits } of record.nests.values()) {
    for (const { watch, observer, night } of visits) {
      if (watch !== null && observer !== null) add(observer, night);
    }
  }
  for (const { fact } of record.published) {
    const night = asNight(parseNight(fact.details.night) ?? first);
    for (const { sitters } of fact.details.posts) for (const name of sitters) add(name, night);
  }
  return sat;
}
