import type { Species } from '../domain/species.ts';
import { type EffectPosterior, propagate } from '../inference/expectation-propagation.ts';
import { gridTo, weightsOfNormal } from '../inference/grid-function.ts';
import { middleLayNight, type Candidates } from './candidates.ts';

/** Levels of eta considered, on the log scale of incubation: +-0.45 by 0.0125. */
export const levelGrid = gridTo(0.45, 0.0125);

/** Prior SDs of what nests share, on the log scale of incubation (guesses). */
export const sharedSd = { season: 0.07, week: 0.02, zone: 0.03, species: 0.03 };

/** SD of eta for a nest of which nothing is known but that it is one. */
export const aloneSd = Math.hypot(sharedSd.season, sharedSd.zone, sharedSd.species);

/** Ties the walk over lay weeks to zero in its middle week; small against everything else. */
const anchorSd = 0.001;
const nightsPerWeek = 7;
/** Effects a nest takes part in: the season, two weeks, its zone, its species. */
const terms = 5;

/** What one nest brings to the shared effects. */
export interface Sharing {
  readonly species: Species | null;
  readonly zone: string | null;
  readonly candidates: Candidates;
  /** Log-likelihood of what was noted of it by level. */
  readonly byLevel: Float64Array;
}

/** What nests share, as learned from all of them, and what that says of each. */
export interface SharedEffects {
  /** Mean and SD of the season level on the log scale: the whole beach, early or late. */
  readonly season: { readonly mean: number; readonly sd: number };
  readonly converged: boolean;
  readonly sweeps: number;
  /** Writes weights on the level grid: eta of nest `index` given all other nests. They sum to 1. */
  readonly without: (index: number, into: Float64Array) => void;
}

/**
 * Learns the season level, a walk over the weeks of laying, zones and species from every nest,
 * emerged or not: eta = season + week (between two, by the day) + zone + species, normal priors.
 */
export function learnEffects(nests: readonly Sharing[]): SharedEffects {
  const layout = layoutOf(nests);
  const { effect, weight } = takesPart(nests, layout);
  const posterior = propagate(
    {
      count: nests.length,
      terms,
      effect,
      weight,
      grid: levelGrid,
      logLikelihood: nests.map((nest) => nest.byLevel),
    },
    priorPrecision(layout),
  );
  return {
    season: seasonOf(posterior, layout),
    converged: posterior.converged,
    sweeps: posterior.sweeps,
    without(index, into) {
      weightsOfNormal(levelGrid, posterior.cavityMean[index]!, posterior.cavitySd[index]!, into);
    },
  };
}

/** Where each effect stands: season at 0, then weeks, zones, species. */
interface Layout {
  readonly firstNight: number;
  readonly weeks: number;
  readonly zones: ReadonlyMap<string, number>;
  readonly species: ReadonlyMap<Species, number>;
  readonly size: number;
}

function layoutOf(nests: readonly Sharing[]): Layout {
  let first = Infinity;
  let last = -Infinity;
  const zones = new Map<string, number>();
  const species = new Map<Species, number>();
  for (const { candidates } of nests) {
    const laid = middleLayNight(candidates);
    if (laid === null) continue;
    first = Math.min(first, laid);
    last = Math.max(last, laid);
  }
  const weeks = first > last ? 1 : Math.ceil((last - first) / nightsPerWeek) + 1;
  let size = 1 + weeks;
  for (const nest of nests) {
    if (nest.zone !== null && !zones.has(nest.zone)) zones.set(nest.zone, size++);
    if (nest.species !== null && !species.has(nest.species)) species.set(nest.species, size++);
  }
  return { firstNight: first > last ? 0 : first, weeks, zones, species, size };
}

function takesPart(nests: readonly Sharing[], layout: Layout) {
  const effect = new Int32Array(nests.length * terms);
  const weight = new Float64Array(nests.length * terms);
  nests.forEach((nest, index) => {
    const at = index * terms;
    weight[at] = 1;
    const laid = middleLayNight(nest.candidates);
    if (laid !== null) {
      const week = (laid - layout.firstNight) / nightsPerWeek;
      const before = Math.min(Math.floor(week), layout.weeks - 1);
      const share = week - before;
      effect[at + 1] = 1 + before;
      weight[at + 1] = 1 - share;
      effect[at + 2] = 1 + Math.min(before + 1, layout.weeks - 1);
      weight[at + 2] = share;
    }
    const zone = nest.zone === null ? undefined : layout.zones.get(nest.zone);
    if (zone !== undefined) {
      effect[at + 3] = zone;
      weight[at + 3] = 1;
    }
    const species = nest.species === null ? undefined : layout.species.get(nest.species);
    if (species !== undefined) {
      effect[at + 4] = species;
      weight[at + 4] = 1;
    }
  });
  return { effect, weight };
}

/** Independent normals, but for the weeks: a random walk, zero in its middle week. */
function priorPrecision({ weeks, zones, species, size }: Layout): Float64Array {
  const precision = new Float64Array(size * size);
  const add = (row: number, column: number, value: number): void => {
    precision[row * size + column] = precision[row * size + column]! + value;
  };
  add(0, 0, sharedSd.season ** -2);
  for (let week = 0; week + 1 < weeks; week++) {
    const step = sharedSd.week ** -2;
    add(1 + week, 1 + week, step);
    add(2 + week, 2 + week, step);
    add(1 + week, 2 + week, -step);
    add(2 + week, 1 + week, -step);
  }
  const middle = 1 + Math.floor(weeks / 2);
  add(middle, middle, anchorSd ** -2);
  for (const at of zones.values()) add(at, at, sharedSd.zone ** -2);
  for (const at of species.values()) add(at, at, sharedSd.species ** -2);
  return precision;
}

/** The season with the mean of its weeks: what all nests of the beach have in common. */
function seasonOf({ mean, covariance }: EffectPosterior, { weeks, size }: Layout) {
  const loads = new Float64Array(size);
  loads[0] = 1;
  for (let week = 0; week < weeks; week++) loads[1 + week] = 1 / weeks;
  let level = 0;
  let variance = 0;
  for (let i = 0; i < size; i++) {
    level += loads[i]! * mean[i]!;
    for (let j = 0; j < size; j++) variance += loads[i]! * loads[j]! * covariance[i * size + j]!;
  }
  return { mean: level, sd: Math.sqrt(variance) };
}
