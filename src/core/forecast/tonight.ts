import { type Night, addNights } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { hatchlingsAtStake, stakeSettings } from './at-stake.ts';
import { type Placement, checkValue } from './check-value.ts';
import type {
  Moment,
  NestForecast,
  NestOut,
  NightChance,
  SeasonForecast,
  SeasonLevel,
} from './forecast.ts';
import { type NestOdds, nestOdds } from './nest-odds.ts';
import { ForecastMemory } from './season-memory.ts';
import type { NestWork } from './nest-work.ts';
import { type SharedEffects, levelGrid } from './shared-effects.ts';

/** Days of incubation at which the season level is told in days. */
const levelDays = 55;
/** A nest this old, in nights, speaks of the season by not having come up. */
const speaksFromAge = 50;
/** Below this chance tonight no walk to a nest is weighed: its gain would be smaller still. */
const worthWeighing = 0.002;

/**
 * The odds of every nest as of one moment, from what was recorded up to it. Nests seen boiling,
 * washed out or inventoried are out of the ranking. Exact in the night of emergence; what nests
 * share is taken as normal. Source: `L_i(e)` and `g_i(eta)` of the model; the
 * posterior of each nest integrates what they share given all the others.
 */
export function forecastSeason(
  record: SeasonRecord,
  moment: Moment,
  memory: ForecastMemory = new ForecastMemory(),
): SeasonForecast {
  const works = memory.workOn(record, moment);
  const effects = memory.effectsOf(works);
  const weights = new Float64Array(levelGrid.count);
  const hastened = { from: moment.night, factor: memory.tuning.haste };
  const out: NestOut[] = [];
  const inside: { work: NestWork; odds: NestOdds; pTonight: number }[] = [];
  for (const [index, work] of works.entries()) {
    const gone = outOf(work, moment.night);
    if (gone !== null) {
      out.push(gone);
      continue;
    }
    effects.without(index, weights);
    const { prior, never, log, candidates } = work;
    const odds = nestOdds(candidates, prior, weights, never, log, hastened);
    inside.push({ work, odds, pTonight: chanceOn(odds, moment.night) });
  }
  inside.sort((a, b) => b.pTonight - a.pTonight || byName(a.work, b.work));
  const site = memory.siteOf(record);
  const { pairs } = site;
  const moonlight = site.moonlight(moment.night);
  const settings = stakeSettings(record.programme);
  const chances = inside.map((entry) => entry.pTonight);
  const placement: Placement = {
    lastPlaced: chances[pairs - 1] ?? 0,
    firstUnplaced: chances[pairs] ?? 0,
  };
  const nests = inside.map(({ work, odds, pTonight }, index): NestForecast => {
    const weighed = pTonight >= worthWeighing && chances.length > pairs;
    const tonight = moment.night - odds.candidates.first;
    return {
      ...summary(work, odds, moment.night),
      rank: index + 1,
      atStake: hatchlingsAtStake(pTonight, work.record.nest, moonlight, settings),
      checkValue: weighed
        ? checkValue(memory.readingsOf(work, moment.night), odds, tonight, placement)
        : 0,
    };
  });
  return {
    moment,
    level: levelOf(effects, works, moment.night),
    moonlight,
    nests,
    out: out.sort(byNightOut),
  };
}

/** The reason a nest is out of the ranking, or null. */
export function outOf({ record, ended }: NestWork, tonight: Night): NestOut | null {
  const { boil, goneFrom, inventoried } = ended;
  if (boil !== null) return { record, reason: 'boiled', night: boil };
  if (goneFrom !== null && goneFrom <= tonight) {
    return { record, reason: 'washed out', night: goneFrom };
  }
  if (inventoried !== null) return { record, reason: 'inventoried', night: inventoried };
  return null;
}

/** Probability of one night; 0 outside the candidates. */
export function chanceOn({ candidates, byNight }: NestOdds, night: Night): number {
  return byNight[night - candidates.first] ?? 0;
}

function summary(
  { record }: NestWork,
  odds: NestOdds,
  tonight: Night,
): Omit<NestForecast, 'rank' | 'checkValue' | 'atStake'> {
  const { first, count } = odds.candidates;
  const distribution: NightChance[] = [];
  let pAlready = 0;
  for (let night = tonight; night < first; night = addNights(night, 1)) {
    distribution.push({ night, p: 0 });
  }
  for (let c = 0; c < count; c++) {
    const night = addNights(first, c);
    if (night < tonight) pAlready += odds.byNight[c]!;
    else distribution.push({ night, p: odds.byNight[c]! });
  }
  const { layNight, layNightLatest } = record.nest;
  return {
    record,
    pTonight: chanceOn(odds, tonight),
    pNext3: [0, 1, 2].reduce((sum, ahead) => sum + chanceOn(odds, addNights(tonight, ahead)), 0),
    pAlready,
    pNever: odds.never,
    distribution,
    medianNight: quantile(distribution, 0.5),
    lowNight: quantile(distribution, 0.1),
    highNight: quantile(distribution, 0.9),
    age:
      layNight === null
        ? null
        : { from: tonight - (layNightLatest ?? layNight), to: tonight - layNight },
  };
}

/** The first night by which a share of what is still to come has come; null when nothing is. */
function quantile(distribution: readonly NightChance[], share: number): Night | null {
  const total = distribution.reduce((sum, { p }) => sum + p, 0);
  if (total < 1e-9) return null;
  let sum = 0;
  for (const { night, p } of distribution) {
    sum += p;
    if (sum >= share * total) return night;
  }
  return distribution.at(-1)?.night ?? null;
}

function levelOf(
  { season, converged }: SharedEffects,
  works: readonly NestWork[],
  tonight: Night,
): SeasonLevel {
  let emerged = 0;
  let waiting = 0;
  let byTemperature = 0;
  let known = 0;
  for (const { record, ended, central } of works) {
    if (record.nest.layNight === null || central === null) continue;
    byTemperature += central.logShift;
    known++;
    if (ended.boil !== null) emerged++;
    else if (tonight - record.nest.layNight >= speaksFromAge) waiting++;
  }
  const mean = season.mean + byTemperature / Math.max(1, known);
  const days = levelDays * (Math.exp(mean) - 1);
  return { ...season, days, emerged, waiting, converged };
}

const byName = (a: NestWork, b: NestWork): number => (a.record.nest.id < b.record.nest.id ? -1 : 1);

const byNightOut = (a: NestOut, b: NestOut): number =>
  b.night - a.night || (a.record.nest.id < b.record.nest.id ? -1 : 1);
