import { type Night, addNights } from '../../src/core/domain/night.ts';
import { Experience, Sound, Surface } from '../../src/core/domain/visit.ts';
import type { CueChains } from '../../src/core/forecast/cue-chains.ts';
import type { Random } from '../../src/core/numerics/random.ts';
import { type DrawnEvents, instant } from './drawn-events.ts';
import { drawPath, drawState, rowOn } from './draw-hidden-chain.ts';
import {
  dawnCounts,
  missedAtDawn,
  nightsTo,
  shareOfBoils,
  watchCounts,
} from './laws-of-sighting.ts';

/** The nest that is gone to, and the truth, which those who go there do not know. */
export interface Visited {
  readonly id: string;
  readonly first: Night;
  readonly boil: Night | null;
  readonly clutch: number | null;
  /** The last night of which anything is on file. */
  readonly until: Night;
}

/** A count in each class: none, few, some, many. */
const counted = [0, 2, 6, 40];
const many = 3;
const untoldClutch_eggs = 100;
const comeOut = 0.7;
/** Nights after laying from which a nest is gone to, and to which; signs are drawn from `signsFrom` on. */
const goneTo = { from: 36, to: 95 };
const signsFrom = 20;

/**
 * Draws what is noted of a nest, night by night, until it is seen to have boiled: looks and sounds of
 * an evening, now and then by two people, watches, and looks at dawn.
 */
export function drawNotes(
  random: Random,
  season: DrawnEvents,
  { id, first, boil, clutch, until }: Visited,
  chains: CueChains,
): void {
  const event = boil === null ? null : boil * 2;
  const last = until * 2 + 1;
  const from = (first + signsFrom) * 2;
  if (last < from) return;
  const paths = {
    surface: drawPath(random, chains.surface, event, from, last),
    sound: drawPath(random, chains.sound, event, from, last),
  };

  const seen = (half: number, experience: Experience) =>
    read(random, Surface.options, (reading) => {
      const row = rowOn(chains.surface, event, half) * 4;
      return chains.surfaceLook(reading, experience)[row + paths.surface.get(half)!]!;
    });
  const heard = (half: number, experience: Experience, instrument: Instrument) =>
    read(random, Sound.options, (reading) => {
      const row = rowOn(chains.sound, event, half) * 4;
      const look = chains.soundLook(reading, experience, instrument, false);
      return look[row + paths.sound.get(half)!]!;
    });

  for (let age = goneTo.from; age <= goneTo.to && first + age <= until; age++) {
    const tonight = addNights(first, age);
    const after = nightsTo(boil, tonight);
    const evening = tonight * 2;
    const look = (half: number, weights: { surface: number; sound: number }) => {
      const experience = random.choice(Experience.options);
      const instrument = random.choice(instruments);
      return {
        experience,
        instrument,
        surface: random.chance(weights.surface) ? seen(half, experience) : null,
        sound: random.chance(weights.sound) ? heard(half, experience, instrument) : null,
      };
    };
    for (const share of [0.3, 0.1]) {
      if (random.chance(share))
        season.visit(id, tonight, 'T21:00', look(evening, { surface: 0.8, sound: 0.7 }));
    }
    if (random.chance(0.12)) {
      // Half an hour to three and a half hours after sunset, which is at 20:00.
      const wet = random.chance(0.2);
      const count = drawState(random, watchCounts(after, shareOfBoils(0.5, 3.5, wet)));
      season.visit(id, tonight, 'T20:30', {
        watched_from: instant(tonight, 'T20:30'),
        watched_to: instant(tonight, 'T23:30'),
        emerged: counted[count],
        rain: wet ? 'light' : 'none',
      });
      if (count === many) return;
    }
    if (random.chance(0.5)) {
      const wind = random.choice([null, 'calm', 'breeze', 'strong'] as const);
      const rain = random.choice([null, 'none', 'light', 'heavy'] as const);
      const hatchlings = (clutch ?? untoldClutch_eggs) * comeOut;
      const count = drawState(random, dawnCounts(after, missedAtDawn(wind, rain, hatchlings)));
      const sound = wind === 'strong' ? 0 : 0.1; // strong wind halves the weight: no chance stands behind it
      season.visit(id, addNights(tonight, 1), 'T06:30', {
        ...look(evening + 1, { surface: 0.7, sound }),
        kind: 'morning',
        wind,
        rain,
        tracks: counted[count],
      });
      if (count === many) return;
    }
  }
}

const instruments = ['stethoscope', 'microphone', 'probe', null] as const;
type Instrument = (typeof instruments)[number];

/** A reading in proportion to its chance. */
function read<Reading>(
  random: Random,
  readings: readonly Reading[],
  chance: (reading: Reading) => number,
): Reading {
  return readings[drawState(random, readings.map(chance))]!;
}
