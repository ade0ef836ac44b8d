import type { Species } from '../domain/species.ts';

/**
 * Prior SDs of what nests share, on the log scale of incubation (guesses). `beach` and `season`
 * together are the 0.07 of a beach and season of which nothing is known; `curve` is a step from one
 * lay week to the next that comes back every year, `week` one of this season alone; `perDegree` is
 * a correction of how strongly temperature counts, per degree Celsius.
 */
export const sharedSd = {
  beach: 0.06,
  season: 0.036,
  week: 0.02,
  curve: 0.03,
  zone: 0.03,
  species: 0.03,
  perDegree: 0.02,
};

/** SD of eta for a nest of which nothing is known but that it is one. */
export const aloneSd = Math.hypot(sharedSd.beach, sharedSd.season, sharedSd.zone, sharedSd.species);

/** Ties a walk over weeks to zero in its middle week; small against everything else. */
const anchorSd = 0.001;
const nightsPerWeek = 7;

/** What one nest takes part in. */
export interface Membership {
  readonly species: Species | null;
  readonly zone: string | null;
  /** Middle of its lay range, as a night number; null when the lay night is not known. */
  readonly laid: number | null;
  /** Which season it is of; seasons are numbered from 0. */
  readonly season: number;
  /** How much warmer (C) its sand was than the middle of all, when its temperature is known. */
  readonly warmer_c: number;
}

/** A run of lay weeks, with the place of the first among the effects. */
interface Weeks {
  readonly at: number;
  readonly firstNight: number;
  readonly count: number;
}

/**
 * Where each effect stands in the vector of effects: the beach at 0, the temperature correction at
 * 1, then the lay-date curve, zones and species (what a later season takes over), then seasons and
 * the walk of each season over its own weeks.
 */
export interface EffectLayout {
  readonly curve: Weeks | null;
  readonly zones: ReadonlyMap<string, number>;
  readonly species: ReadonlyMap<Species, number>;
  /** How many effects, from the first, hold for any season of this beach. */
  readonly lasting: number;
  readonly seasons: readonly number[];
  readonly walks: readonly (Weeks | null)[];
  readonly size: number;
}

/** Effects a nest takes part in at most: beach, temperature, two of the curve, zone, species, season, two weeks. */
export const termsPerNest = 9;

/**
 * Lays out the effects of some nests. `zones` and `species` of earlier seasons come first and in
 * their order when `lasting` is given, so that what was learned of them can be taken over; the curve
 * is there when it was learned before (`lasting`) or when `withCurve`.
 */
export function layOutEffects(
  nests: readonly Membership[],
  seasonCount: number,
  lasting: EffectLayout | null,
  withCurve: boolean,
): EffectLayout {
  let size = 2;
  let curve = lasting?.curve ?? null;
  if (lasting === null && withCurve) {
    curve = weeksOf(
      nests.map((nest) => nest.laid),
      size,
    );
  }
  if (curve !== null) size += curve.count;
  const zones = new Map(lasting?.zones);
  const species = new Map(lasting?.species);
  if (lasting !== null) size = lasting.lasting;
  for (const nest of nests) {
    if (nest.zone !== null && !zones.has(nest.zone)) zones.set(nest.zone, size++);
    if (nest.species !== null && !species.has(nest.species)) species.set(nest.species, size++);
  }
  const shared = size;
  const seasons = Array.from({ length: seasonCount }, () => size++);
  const walks = seasons.map((_, season) => {
    const laid = nests.filter((nest) => nest.season === season).map((nest) => nest.laid);
    const weeks = weeksOf(laid, size);
    size += weeks?.count ?? 0;
    return weeks;
  });
  return { curve, zones, species, lasting: shared, seasons, walks, size };
}

function weeksOf(laid: readonly (number | null)[], at: number): Weeks | null {
  const known = laid.filter((night) => night !== null);
  if (known.length === 0) return null;
  const firstNight = Math.min(...known);
  const count = Math.ceil((Math.max(...known) - firstNight) / nightsPerWeek) + 1;
  return { at, firstNight, count };
}

/** Which effects each nest takes part in, and with what weight; nest-major, `termsPerNest` each. */
export function takePart(
  nests: readonly Membership[],
  layout: EffectLayout,
): { effect: Int32Array; weight: Float64Array } {
  const effect = new Int32Array(nests.length * termsPerNest);
  const weight = new Float64Array(nests.length * termsPerNest);
  nests.forEach((nest, index) => {
    let at = index * termsPerNest;
    const add = (place: number | undefined, share: number): void => {
      if (place === undefined || share === 0) return;
      effect[at] = place;
      weight[at] = share;
      at++;
    };
    const addWeeks = (weeks: Weeks | null | undefined): void => {
      if (weeks === null || weeks === undefined || nest.laid === null) return;
      const last = weeks.count - 1;
      const week = Math.min(last, Math.max(0, (nest.laid - weeks.firstNight) / nightsPerWeek));
      const before = Math.floor(week);
      add(weeks.at + before, 1 - (week - before));
      add(weeks.at + Math.min(before + 1, last), week - before);
    };
    add(0, 1);
    add(1, nest.warmer_c);
    addWeeks(layout.curve);
    add(nest.zone === null ? undefined : layout.zones.get(nest.zone), 1);
    add(nest.species === null ? undefined : layout.species.get(nest.species), 1);
    add(layout.seasons[nest.season], 1);
    addWeeks(layout.walks[nest.season]);
  });
  return { effect, weight };
}

/**
 * Prior precision of the effects, row-major: independent normals, walks over weeks tied to zero in
 * their middle week. `seasonSd` = spread between seasons of one beach, `weekSd` = step from one week
 * of a season to the next.
 */
export function priorPrecision(
  layout: EffectLayout,
  seasonSd: number,
  weekSd: number,
): Float64Array {
  const { size, curve, zones, species, seasons, walks } = layout;
  const precision = new Float64Array(size * size);
  const add = (row: number, column: number, value: number): void => {
    precision[row * size + column] = precision[row * size + column]! + value;
  };
  const walk = (weeks: Weeks | null, stepSd: number): void => {
    if (weeks === null) return;
    const step = stepSd ** -2;
    for (let week = weeks.at; week + 1 < weeks.at + weeks.count; week++) {
      add(week, week, step);
      add(week + 1, week + 1, step);
      add(week, week + 1, -step);
      add(week + 1, week, -step);
    }
    const middle = weeks.at + Math.floor(weeks.count / 2);
    add(middle, middle, anchorSd ** -2);
  };
  add(0, 0, sharedSd.beach ** -2);
  add(1, 1, sharedSd.perDegree ** -2);
  walk(curve, sharedSd.curve);
  for (const at of zones.values()) add(at, at, sharedSd.zone ** -2);
  for (const at of species.values()) add(at, at, sharedSd.species ** -2);
  for (const at of seasons) add(at, at, seasonSd ** -2);
  for (const weeks of walks) walk(weeks, weekSd);
  return precision;
}

/** Weights of the level of one season: the beach, the season, and the mean of its weeks and the curve there. */
export function levelLoads(layout: EffectLayout, season: number): Float64Array {
  const loads = new Float64Array(layout.size);
  loads[0] = 1;
  loads[layout.seasons[season]!] = 1;
  const weeks = layout.walks[season];
  if (weeks === null || weeks === undefined) return loads;
  for (let week = 0; week < weeks.count; week++) {
    loads[weeks.at + week] = 1 / weeks.count;
    if (layout.curve === null) continue;
    const nights = weeks.firstNight + week * nightsPerWeek - layout.curve.firstNight;
    const at = Math.min(layout.curve.count - 1, Math.max(0, Math.round(nights / nightsPerWeek)));
    const place = layout.curve.at + at;
    loads[place] = loads[place]! + 1 / weeks.count;
  }
  return loads;
}
