import { confounders } from '../../../scripts/sound-sketch/confounders.ts';
import { drawScene } from '../../../scripts/sound-sketch/scene.ts';
import { writeWav } from '../../../src/core/acoustics/write-wav.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';

const common = {
  rate_hz: 16_000,
  seconds: 16,
  instrument: 'open microphone',
  background: null,
  snr_db: 14,
  peak_dbfs: -12,
} as const;

/** Sixteen seconds of scratching, at 16 kHz. */
export const steadySound = Float32Array.from(
  drawScene({ ...common, perMinute: 80, seed: 21 }).samples,
);

/** The same of somebody walking by. */
export const walkingSound = Float32Array.from(
  confounders.footsteps(16_000, 16, randomStream(22, 'steps')),
  (sample) => 0.05 * sample,
);

/** A rush of sand as a WAV file. */
export const rushFile = writeWav(
  drawScene({ ...common, perMinute: 0, rushing: true, seed: 23 }).samples,
  16_000,
);
