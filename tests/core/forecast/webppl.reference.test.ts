import jstat from 'jstat';
import { beforeAll, describe, expect, test } from 'vitest';
import { asNight } from '../../../src/core/domain/night.ts';
import type { NestId } from '../../../src/core/domain/nest.ts';
import { sharedSd } from '../../../src/core/forecast/effect-layout.ts';
import { nestOdds, oddsFrom, type NestOdds } from '../../../src/core/forecast/nest-odds.ts';
import { oneNest } from '../../../src/core/forecast/one-nest.ts';
import { priorOver } from '../../../src/core/forecast/prior.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { levelGrid } from '../../../src/core/forecast/shared-effects.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { SeasonBuilder, eveningOf } from '../../builders/season.ts';
import { plainTuning } from '../../reference/calibration.ts';
import { modelTables } from '../../reference/webppl/model-tables.ts';
import { type NestCase, addNest, notesFor, today } from '../../reference/webppl/nest-case.ts';
import { type EnumeratedOdds, enumerateOdds } from '../../reference/webppl/run-webppl.ts';

// Truth: exact enumeration by WebPPL 0.9.15 of the story that the model tells (nest-odds.wppl). It is
// handed the tables and the prior over the nights; both sides are exact, so 1e-6 leaves only rounding.
const tolerance = 1e-6;
const moment = eveningOf(today, '22:00');
const pNever = 0.08;

const cases: Readonly<Record<string, NestCase>> = {
  'a surface that sinks, read by three people': {
    age: 54,
    notes: [
      { back: 7, surface: 'smooth', experience: 'lead' },
      { back: 4, surface: 'smooth', experience: 'novice' },
      { back: 3, surface: 'dip', experience: 'novice' },
      { back: 1, surface: 'depression' },
      { back: 0, surface: 'dip', experience: 'lead' },
    ],
  },
  'a stethoscope, once in strong wind': {
    age: 53,
    notes: [
      { back: 5, sound: 'quiet', instrument: 'stethoscope' },
      { back: 2, sound: 'steady', instrument: 'stethoscope', wind: 'strong' },
      { back: 0, sound: 'occasional', instrument: 'stethoscope', experience: 'novice' },
    ],
  },
  'both signs, two people in one half night, an instrument not said': {
    age: 55,
    notes: [
      { back: 3, surface: 'dip', sound: 'occasional', instrument: 'probe' },
      { back: 1, surface: 'depression', sound: 'steady', experience: 'novice' },
      { back: 1, surface: 'dip', sound: 'waterfall', instrument: 'microphone' },
    ],
  },
  'looks at dawn between two evenings, and a watch for nothing': {
    age: 56,
    notes: [
      { back: 3, dawn: true, surface: 'smooth', tracks: 0, wind: 'breeze' },
      { back: 2, sound: 'steady', instrument: 'probe' },
      { back: 2, emerged: 0 },
      { back: 2, dawn: true, surface: 'dip', tracks: 0 },
      { back: 1, surface: 'depression', experience: 'lead' },
      { back: 1, dawn: true, tracks: 0, wind: 'calm' },
    ],
  },
  'looks that may all come after a boil nobody saw': {
    age: 62,
    notes: [
      { back: 9, surface: 'depression' },
      { back: 6, dawn: true, surface: 'caved', sound: 'quiet', instrument: 'stethoscope' },
      { back: 4, surface: 'caved', sound: 'quiet', instrument: 'probe' },
      { back: 1, surface: 'depression', sound: 'quiet', experience: 'novice' },
    ],
  },
  'stragglers in a watch and tracks short of a boil': {
    age: 54,
    notes: [
      { back: 2, emerged: 2 },
      { back: 1, dawn: true, tracks: 5, wind: 'strong' },
      { back: 0, surface: 'dip' },
    ],
  },
};

const small: NestCase = {
  age: 55,
  notes: [
    { back: 1, surface: 'dip', sound: 'occasional', instrument: 'stethoscope' },
    { back: 1, dawn: true, surface: 'depression', tracks: 0 },
    { back: 0, sound: 'steady', instrument: 'probe', experience: 'novice' },
  ],
};

/** Chances of the nights -1 to 2 alone, so that every path can be walked. */
const fewNights = [0.2, 0.3, 0.3, 0.2];

/** Levels of the season on the grid, and how likely each is before anything is seen. */
const levels = [24, 31, 36, 41, 48].map((at, index) => ({
  at,
  p: [0.1, 0.2, 0.4, 0.2, 0.1][index]!,
}));

function told({ candidates, byNight, never }: NestOdds): EnumeratedOdds {
  let already = 0;
  byNight.forEach((p, c) => (already += candidates.first + c < moment.night ? p : 0));
  return { tonight: byNight[moment.night - candidates.first] ?? 0, already, never };
}

function expectSame(ours: EnumeratedOdds, truth: EnumeratedOdds): void {
  expect(Math.abs(ours.tonight - truth.tonight)).toBeLessThan(tolerance);
  expect(Math.abs(ours.already - truth.already)).toBeLessThan(tolerance);
  expect(Math.abs(ours.never - truth.never)).toBeLessThan(tolerance);
}

/** A season of these nests, and the work on each. */
function seasonOf(nests: readonly NestCase[], memory: ForecastMemory) {
  const season = new SeasonBuilder();
  nests.forEach((nest, index) => addNest(season, `n${index}`, nest));
  const record = season.record();
  return { record, works: memory.workOn(record, moment) };
}

/** One nest as WebPPL takes it, with the prior that the program gives it. */
function alone(nest: NestCase, memory: ForecastMemory) {
  const { record } = seasonOf([nest], memory);
  const found = oneNest(record, moment, 'n0' as NestId, memory);
  if (found === null) throw new Error('The nest is not on record.');
  const { candidates } = found.work.evidence;
  const first = candidates.first - moment.night;
  const input = {
    first,
    prior: [...found.prior],
    never: pNever,
    ...notesFor(nest, memory.chains.power),
  };
  return { record, found, input };
}

const memory = new ForecastMemory();
const plain = new ForecastMemory({ tuning: plainTuning });
const single = Object.values(cases).map((nest) => alone(nest, memory));
const walked = alone(small, plain);
const sharing: readonly NestCase[] = [
  small,
  cases['looks that may all come after a boil nobody saw']!,
];

/** Both nests, and the prior of each at every level. */
function shared() {
  const { works } = seasonOf(sharing, memory);
  const nests = works.map(({ evidence: { candidates }, prior }, index) => ({
    first: candidates.first - moment.night,
    never: pNever,
    priors: levels.map(({ at }) => {
      const only = new Float64Array(levelGrid.count);
      only[at] = 1;
      return [...priorOver(prior, candidates.count, only)];
    }),
    ...notesFor(sharing[index]!, memory.chains.power),
  }));
  return { works, nests };
}

describe('the odds are those of WebPPL by exact enumeration', () => {
  let truth: EnumeratedOdds[] = [];
  beforeAll(() => {
    const { input } = walked;
    const everyPath = {
      ...input,
      first: -1,
      prior: fewNights,
      surfaceNotes: input.notes.filter(({ channel }) => channel === 'surface'),
      soundNotes: input.notes.filter(({ channel }) => channel === 'sound'),
    };
    truth = enumerateOdds({
      tables: modelTables,
      cases: [
        ...single.map((entry) => ({ kind: 'one nest', nest: entry.input })),
        { kind: 'every path', nest: everyPath },
        { kind: 'shared level', levels: levels.map(({ p }) => p), nests: shared().nests },
      ],
    });
  }, 120_000);

  Object.keys(cases).forEach((name, index) => {
    test(name, () => {
      const [nest] = forecastSeason(single[index]!.record, moment, memory).nests;
      if (nest === undefined) throw new Error('The nest is out of the ranking.');
      const { pTonight, pAlready, pNever } = nest;
      expectSame({ tonight: pTonight, already: pAlready, never: pNever }, truth[index]!);
    });
  });

  test('every path of both signs over three half nights, nothing summed away', () => {
    const { work } = walked.found;
    const { candidates } = work.evidence;
    const prior = new Float64Array(candidates.count);
    prior.set(fewNights, asNight(moment.night - 1) - candidates.first);
    expectSame(told(oddsFrom(candidates, prior, pNever, work.log)), truth[single.length]!);
  });

  test('two nests that share a season level of five values', () => {
    const { works } = shared();
    const [own, other] = works as [(typeof works)[0], (typeof works)[0]];
    const weights = new Float64Array(levelGrid.count);
    for (const { at, p } of levels) weights[at] = p * Math.exp(other.byLevel[at]!);
    const odds = nestOdds(own.evidence.candidates, own.prior, weights, own.never, own.log);
    expectSame(told(odds), truth[single.length + 1]!);
    // The other nest counts: without it the odds are visibly others.
    for (const { at, p } of levels) weights[at] = p;
    const without = nestOdds(own.evidence.candidates, own.prior, weights, own.never, own.log);
    expect(Math.abs(told(without).tonight - truth[single.length + 1]!.tonight)).toBeGreaterThan(
      1e-3,
    );
  });
});

/** Chance of 35 to 105 nights, over a normal season level, by a quadrature of 801 points. */
function mixtureByQuadrature(levelSd: number): number[] {
  const s = 4.5 / 55;
  const below = (nights: number, eta: number): number => {
    const x = Math.log(nights / 55) - eta;
    return 0.9 * jstat.normal.cdf(x, 0, s) + 0.1 * jstat.normal.cdf(x, 0.035, 2.2 * s);
  };
  const chances = new Array<number>(71).fill(0);
  let total = 0;
  for (let node = -400; node <= 400; node++) {
    const z = node / 80;
    const weight = Math.exp((-z * z) / 2);
    const eta = z * levelSd;
    const whole = below(105.5, eta) - below(34.5, eta);
    total += weight;
    for (let d = 0; d < 71; d++) {
      const chance = (below(35.5 + d, eta) - below(34.5 + d, eta)) / whole;
      chances[d] = chances[d]! + weight * chance;
    }
  }
  return chances.map((chance) => chance / total);
}

test('the prior over the nights of a nest alone is the mixture of the description', () => {
  // Truth: jstat's normal distribution, by quadrature. A nest without a zone, alone: beach, season and
  // species. Reading rows between the points of a grid costs up to 1e-5.
  const levelSd = Math.hypot(sharedSd.beach, sharedSd.season, sharedSd.species);
  const truth = mixtureByQuadrature(levelSd);
  const { prior } = single[0]!.found;
  expect(prior.length).toBe(truth.length);
  prior.forEach((p, index) => expect(Math.abs(p - truth[index]!)).toBeLessThan(1e-5));
});
