import { describe, expect, test } from 'vitest';
import { Surface } from '../../../src/core/domain/visit.ts';
import { cueChains } from '../../../src/core/forecast/cue-chains.ts';
import { type CueTables, defaultCueTables } from '../../../src/core/forecast/cue-tables.ts';
import { learnCues } from '../../../src/core/forecast/learn-cues.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { type Random, randomStream } from '../../../src/core/numerics/random.ts';
import { SeasonBuilder, eveningOf, layNightBefore } from '../../builders/season.ts';

// Outside truth: tables of our choice, from which the notes are drawn.
const misread = Float64Array.from(
  [
    [0.86, 0.14, 0, 0],
    [0.1, 0.8, 0.1, 0],
    [0, 0.1, 0.8, 0.1],
    [0, 0, 0.1, 0.9],
  ].flat(),
);
const truth: CueTables = {
  ...defaultCueTables,
  surface: {
    rows: [
      [0, [0.1, 0.3, 0.35, 0.25]],
      [4, [0.35, 0.35, 0.25, 0.05]],
      [8, [0.6, 0.28, 0.1, 0.02]],
      [20, [0.85, 0.12, 0.02, 0.01]],
    ],
    redraw: { near: 0.25, far: 0.6 },
    after: { start: [0.02, 0.08, 0.3, 0.6], redraw: 0.1 },
  },
  surfaceReadings: {
    byExperience: { novice: misread, trained: misread, lead: misread },
    byReader: new Map(),
  },
};

const nests = 160;
const end = '2026-08-20';
const model = cueChains(truth).surface;

/** Draws what is there and what is written of one nest, evening and dawn, about a boil that is seen. */
function noteNest(season: SeasonBuilder, name: string, boilBack: number, random: Random): void {
  season.nest(name, { lay_night: layNightBefore(end, boilBack + 55) });
  const draw = (chance: (state: number) => number): number => {
    let left = random.between(0, 1);
    for (let state = 0; state < 3; state++) if ((left -= chance(state)) < 0) return state;
    return 3;
  };
  const row = (left: number, s: number): number => model.rows[left * 4 + s]!;
  let state = draw((s) => row(20, s));
  for (let half = -40; half <= 9; half++) {
    const from = state;
    if (half === 1) state = draw((s) => model.afterStart[s]!);
    else if (half > 1) state = random.chance(model.afterRedraw) ? draw((s) => row(20, s)) : from;
    else if (-half >= 20) state = random.chance(model.farRedraw) ? draw((s) => row(20, s)) : from;
    else state = draw((s) => model.steps[-half * 16 + from * 4 + s]!);
    const reading = draw((s) => misread[state * 4 + s]!);
    const dawn = half % 2 !== 0;
    const night = layNightBefore(end, boilBack - Math.floor(half / 2));
    season.visit(name, night, {
      kind: dawn ? 'morning' : 'evening',
      surface: Surface.options[reading]!,
      ...(dawn && half <= 1 ? { tracks: half === 1 ? 60 : 0 } : {}),
    });
  }
}

describe('notes drawn from other tables than the default', () => {
  const random = randomStream(11, 'drawn');
  const season = new SeasonBuilder();
  for (let nest = 0; nest < nests; nest++) noteNest(season, `n${nest}`, 8 + (nest % 20), random);
  const { tables, learnedTables } = learnCues(
    season.record(),
    eveningOf(end),
    new ForecastMemory(),
    { tables: true, tuning: false },
  );

  test('give those tables back, row by row', () => {
    // Sampling error of a row seen once by each nest, three SDs; 0.03 for the default's 20 notes.
    for (const [left, expected] of truth.surface.rows) {
      const found = tables.surface.rows.find(([at]) => at === left)![1];
      expected.forEach((p, state) => {
        const error = 3 * Math.sqrt((p * (1 - p)) / nests) + 0.03;
        expect(Math.abs(found[state]! - p), `${left} half nights left, ${state}`).toBeLessThan(
          error,
        );
      });
    }
    expect(learnedTables[0]!.rows[0]!.n).toBeGreaterThan(nests);
  });

  test('give back what the boil leaves behind', () => {
    truth.surface.after.start.forEach((p, state) => {
      const error = 3 * Math.sqrt((p * (1 - p)) / nests) + 0.05;
      expect(Math.abs(tables.surface.after.start[state]! - p)).toBeLessThan(error);
    });
  });

  test('give back how fast the surface changes, or most of the way to it', () => {
    // Redraws are seen only by what they change: a few passes go most of the way from the default.
    const { redraw } = tables.surface;
    expect(redraw.far).toBeGreaterThan(0.5);
    expect(redraw.far).toBeLessThan(0.7);
    expect(redraw.near).toBeGreaterThan(0.18);
    expect(redraw.near).toBeLessThan(0.32);
  });

  test('give back how the observers read', () => {
    const found = tables.surfaceReadings.byExperience.trained;
    misread.forEach((p, cell) => {
      if (p > 0) expect(Math.abs(found[cell]! - p), `cell ${cell}`).toBeLessThan(0.04);
    });
  });
});
