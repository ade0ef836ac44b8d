import type { Texture } from './texture.ts';

/** What goes on without pause over some seconds. */
export type Sustained = 'nothing' | 'rush' | 'rain';

/** What the texture cannot tell by itself. */
export interface Surroundings {
  /** Share of the last seconds in which a voice is heard. */
  readonly voiceShare: number;
  /** As `smoothness`, over the last seconds: 0.7 and more for noise, less for tones. */
  readonly smooth: number;
  /** Level above 800 Hz against the whole, dB. */
  readonly bright_db: number;
  /** Sudden sounds a minute that were no voice, over the last seconds. */
  readonly onsets_per_min: number;
  /** Median of how long they were, as `widthOf`; null when there were hardly any. */
  readonly width_s: number | null;
}

// Smooth noise (hiss, surf, far rain) has a fine spread near 1.2-2 dB; grains of sand and drops have more.
// Drops fall evenly and each is heard by itself; sand that hatchlings stir swells, ebbs and runs into
// one. Set on sketches and on recordings of rain, wind, water and insects (`npm run bench -- listen`),
// with room on both sides (G).
const rainFine_db = 1.95;
const rainOnsets_per_min = 150;
const evenSlow_db = 2;
const rainMostSlow_db = 2.9;
const rainMostClump_db = 2.5;
// Many drops a second lie on top of each other; even so most are shorter than strokes.
const dropWidth_s = 0.0095;
const evenWidth_s = 0.0115;
const grainyWidth_s = 0.0145;
const rushFine_db = 2.4;
const rushSlow_db = 2.3;
const rushClump_db = 0.7;
const rushMostSlow_db = 9;

/** Tells the rush of sand from rain, and both from noise without grains. */
export function sustainedSound(texture: Texture, around: Surroundings): Sustained {
  const { fine_db, clump_db, slow_db } = texture;
  const isNoise = around.voiceShare < 0.1 && around.smooth > 0.7 && around.bright_db > -7.5;
  if (!isNoise) return 'nothing';
  const isDense = around.onsets_per_min >= rainOnsets_per_min;
  const isDrops =
    fine_db >= rainFine_db && slow_db < rainMostSlow_db && clump_db < rainMostClump_db;
  const width_s = around.width_s ?? Infinity;
  const isShort =
    width_s < dropWidth_s ||
    (width_s < evenWidth_s && slow_db < evenSlow_db) ||
    (width_s < grainyWidth_s && isDrops);
  if (isDense && isShort) return 'rain';
  const isRush =
    fine_db >= rushFine_db &&
    slow_db >= rushSlow_db &&
    slow_db < rushMostSlow_db &&
    clump_db >= rushClump_db;
  return isRush ? 'rush' : 'nothing';
}
