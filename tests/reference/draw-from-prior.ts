import { type Night, asNight, addNights, formatNight } from '../../src/core/domain/night.ts';
import type { NestId } from '../../src/core/domain/nest.ts';
import type { CueChains } from '../../src/core/forecast/cue-chains.ts';
import { sharedSd } from '../../src/core/forecast/effect-layout.ts';
import type { Moment } from '../../src/core/forecast/forecast.ts';
import type { SeasonRecord } from '../../src/core/log/season-record.ts';
import { type Random, randomStream } from '../../src/core/numerics/random.ts';
import { eveningOf, night } from '../builders/season.ts';
import { drawNotes } from './draw-notes.ts';
import { DrawnEvents } from './drawn-events.ts';

/** A small season drawn from the model's own prior, cut on one evening, with the truth behind it. */
export interface DrawnSeason {
  readonly record: SeasonRecord;
  readonly moment: Moment;
  /** What the season level stands for: beach and season, and the mean of the weeks of laying. */
  readonly level: number;
  /** The night of the boil, null = never. */
  readonly boils: ReadonlyMap<NestId, Night | null>;
}

export interface DrawOptions {
  readonly nests: number;
  /** Nests are laid over so many weeks. */
  readonly layWeeks: number;
  /** Any evening on which some may come up, or the one on which the middle nest is due. */
  readonly cut: 'any evening' | 'mid hatch';
}

const firstLaying = night('2026-05-20');
const species = 'Caretta caretta';
const median_nights = 55;
const spread_log = 4.5 / median_nights;
const pNever = 0.08;
const tail = { weight: 0.1, shift: 0.035, widening: 2.2 };
const shortest_nights = 35;
const longest_nights = 105;
/** The walk over lay weeks is tied to zero in its middle week by this little. */
const anchorSd = 0.001;

/**
 * Draws a season: what nests share, how long each takes, whether it comes up at all, its true signs,
 * and what people who go there without knowing any of it note. What is on file depends on the truth
 * only through earlier notes. Loggerheads; no temperature, no storms. The shared effects are drawn one
 * by one as the model describes them, not from the layout under test.
 */
export function drawSeason(seed: number, chains: CueChains, options: DrawOptions): DrawnSeason {
  const random = randomStream(seed, 'season');
  const laid = Array.from({ length: options.nests }, () => drawLaying(random, options.layWeeks));
  const middles = laid.map(({ first, range }) => first + range / 2);
  const cutNight = drawCut(random, middles, options.cut);
  const moment = eveningOf(formatNight(cutNight));

  const season = random.normal(0, sharedSd.beach) + random.normal(0, sharedSd.season);
  const weeks = drawWeeks(random, middles);
  const ofSpecies = random.normal(0, sharedSd.species);
  const zones = ['North', 'South'].map((zone) => ({
    zone,
    effect: random.normal(0, sharedSd.zone),
  }));

  const events = new DrawnEvents();
  const boils = new Map<NestId, Night | null>();
  laid.forEach(({ first, range, truly }, index) => {
    const id = `n${index}`;
    const { zone, effect } = random.choice(zones);
    const eta = season + weeks.at(middles[index]!) + ofSpecies + effect;
    const boil = random.chance(pNever) ? null : addNights(truly, drawDuration(random, eta));
    const clutch = random.chance(0.7) ? 60 + random.below(80) : null;
    boils.set(id as NestId, boil);
    events.nest(id, first, {
      species,
      zone,
      clutch,
      lay_night: formatNight(first),
      lay_night_latest: range === 0 ? null : formatNight(addNights(first, range)),
    });
    const until = addNights(cutNight, -1);
    drawNotes(
      randomStream(seed, 'notes', index),
      events,
      { id, first, boil, clutch, until },
      chains,
    );
  });
  return { record: events.record(), moment, level: season + weeks.mean, boils };
}

/** One in five nests was laid on one of three nights, each as likely. */
function drawLaying(random: Random, weeks: number) {
  const first = addNights(firstLaying, random.below(7 * weeks));
  const range = random.chance(0.2) ? 2 : 0;
  return { first, range, truly: addNights(first, random.below(range + 1)) };
}

function drawCut(random: Random, middles: readonly number[], cut: DrawOptions['cut']): Night {
  const sorted = [...middles].sort((a, b) => a - b);
  const due = Math.round(sorted[Math.floor(sorted.length / 2)]! + median_nights);
  if (cut === 'mid hatch') return asNight(due);
  const from = Math.ceil(sorted[0]!) + 44;
  const to = Math.ceil(sorted.at(-1)!) + 72;
  return asNight(from + random.below(to - from));
}

/** A random walk over the weeks of laying, all but zero in its middle week; straight lines between. */
function drawWeeks(random: Random, middles: readonly number[]) {
  const first = Math.min(...middles);
  const count = Math.ceil((Math.max(...middles) - first) / 7) + 1;
  const middle = Math.floor(count / 2);
  const values = new Array<number>(count).fill(0);
  values[middle] = random.normal(0, anchorSd);
  for (let week = middle + 1; week < count; week++) {
    values[week] = values[week - 1]! + random.normal(0, sharedSd.week);
  }
  for (let week = middle - 1; week >= 0; week--) {
    values[week] = values[week + 1]! + random.normal(0, sharedSd.week);
  }
  return {
    mean: values.reduce((sum, value) => sum + value, 0) / count,
    at(laid: number): number {
      const week = (laid - first) / 7;
      const before = Math.floor(week);
      const share = week - before;
      return values[before]! * (1 - share) + (values[before + 1] ?? 0) * share;
    },
  };
}

/** Nights from laying to the boil, by the mixture on the log scale; drawn again outside the limits. */
function drawDuration(random: Random, eta: number): number {
  for (;;) {
    const odd = random.chance(tail.weight);
    const residual = odd
      ? random.normal(tail.shift, tail.widening * spread_log)
      : random.normal(0, spread_log);
    const nights = Math.round(median_nights * Math.exp(eta + residual));
    if (nights >= shortest_nights && nights <= longest_nights) return nights;
  }
}
