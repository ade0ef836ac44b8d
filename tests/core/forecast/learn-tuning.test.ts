import { describe, expect, test } from 'vitest';
import { learnCues } from '../../../src/core/forecast/learn-cues.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { type Tuning, defaultTuning } from '../../../src/core/forecast/tuning.ts';
import { SeasonBuilder, eveningOf, layNightBefore } from '../../builders/season.ts';

const today = '2026-07-30';

/** What is heard and how long it takes: `heard` by nights left, `duration` by nest. */
interface Beach {
  readonly heard: (nest: number, nightsLeft: number) => string;
  readonly duration_nights: (nest: number) => number;
}

/** Nests that came up over three weeks, listened to on eight evenings and looked at every dawn. */
function learned({ heard, duration_nights }: Beach): Tuning {
  const season = new SeasonBuilder();
  for (let nest = 0; nest < 40; nest++) {
    const name = `n${nest}`;
    const boilBack = 2 + (nest % 20);
    season.nest(name, { lay_night: layNightBefore(today, boilBack + duration_nights(nest)) });
    for (let left = 8; left >= 0; left--) {
      const night = layNightBefore(today, boilBack + left);
      season.visit(name, night, { kind: 'morning', tracks: left === 0 ? 60 : 0 });
      if (left > 0) {
        season.visit(name, night, { sound: heard(nest, left), instrument: 'probe' });
      }
    }
  }
  const toLearn = { tables: false, tuning: true };
  return learnCues(season.record(), eveningOf(today), new ForecastMemory(), toLearn).tuning;
}

/** A few nights early or late, as widely as published nests are. */
const usual = (nest: number): number => 55 + [0, 3, -4, 6, -2, 1, -6, 4, -1, 9][(nest * 7) % 10]!;
const telling = (_: number, left: number): string =>
  left <= 1 ? 'waterfall' : left <= 3 ? 'steady' : 'quiet';
/** The very readings, on nights that have nothing to do with the boil. */
const misleading = (nest: number, left: number): string =>
  telling(nest, ((left * 5 + nest * 3) % 8) + 1);

describe('the weights of cues and spread, from past evenings', () => {
  test('sounds that come true are given more weight than those that have nothing to do with it', () => {
    const strong = learned({ heard: telling, duration_nights: usual }).soundPower;
    const weak = learned({ heard: misleading, duration_nights: usual }).soundPower;
    expect(strong).toBeGreaterThan(defaultTuning.soundPower);
    expect(weak).toBeLessThan(defaultTuning.soundPower);
  });

  test('nests that all take as long are told more sharply than those that scatter', () => {
    const alike = learned({ heard: telling, duration_nights: (nest) => 55 + (nest % 2) });
    const scattered = learned({ heard: telling, duration_nights: usual });
    expect(alike.spreadFactor).toBeLessThan(1);
    expect(scattered.spreadFactor).toBeGreaterThanOrEqual(1);
  });

  test('what was not noted keeps its default weight', () => {
    const { surfacePower } = learned({ heard: telling, duration_nights: usual });
    expect(surfacePower).toBe(defaultTuning.surfacePower);
  });

  test('where nests come up one after the other, none is held for never and none is waited for long', () => {
    const alike = learned({ heard: telling, duration_nights: (nest) => 55 + (nest % 2) });
    expect(alike.haste).toBeGreaterThanOrEqual(1);
    expect(alike.neverOdds).toBeLessThanOrEqual(1);
  });
});
