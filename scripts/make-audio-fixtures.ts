// npx tsx scripts/make-audio-fixtures.ts: draws the sounds in audio-fixtures anew, with their manifest.
// Everything follows from the seeds below: the same files on every machine.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeWav } from '../src/core/acoustics/write-wav.ts';
import { randomStream } from '../src/core/numerics/random.ts';
import { type Confounder, confounders } from './sound-sketch/confounders.ts';
import { type Scene, drawScene } from './sound-sketch/scene.ts';

const room = join(import.meta.dirname, '../audio-fixtures');
const origin =
  'Drawn by scripts/make-audio-fixtures.ts from a sketch of grains, strokes and confounders; not a recording.';

interface Fixture {
  readonly file: string;
  /** What a person would write down. */
  readonly state: 'quiet' | 'occasional' | 'steady' | 'waterfall' | 'can not tell';
  readonly perMinute: number;
  readonly rushing?: boolean;
  readonly instrument?: Scene['instrument'];
  readonly background?: Confounder;
  readonly snr_db?: number;
  readonly seconds?: number;
  readonly rate_hz?: number;
  readonly peak_dbfs?: number;
}

/** A lower rate and a shorter time, to keep the folder small; it tries the resampling too. */
const short = { seconds: 14, rate_hz: 11_025 } as const;

const fixtures: readonly Fixture[] = [
  { file: 'quiet.wav', state: 'quiet', perMinute: 0 },
  { file: 'occasional.wav', state: 'occasional', perMinute: 4, seconds: 45 },
  { file: 'steady.wav', state: 'steady', perMinute: 45 },
  { file: 'steady-fast.wav', state: 'steady', perMinute: 110 },
  { file: 'steady-stethoscope.wav', state: 'steady', perMinute: 45, instrument: 'stethoscope' },
  { file: 'steady-faint.wav', state: 'steady', perMinute: 45, peak_dbfs: -45, rate_hz: 22_050 },
  { file: 'waterfall.wav', state: 'waterfall', perMinute: 0, rushing: true },
  {
    file: 'waterfall-stethoscope.wav',
    state: 'waterfall',
    perMinute: 0,
    rushing: true,
    instrument: 'stethoscope',
  },
  ...(['wind', 'surf', 'speech', 'insects', 'bumps'] as const).flatMap((background) => [
    {
      file: `quiet-${background}.wav`,
      state: 'quiet',
      perMinute: 0,
      background,
      ...short,
    } as const,
    {
      file: `steady-${background}.wav`,
      state: 'steady',
      perMinute: 45,
      background,
      ...short,
    } as const,
  ]),
  { file: 'footsteps.wav', state: 'can not tell', perMinute: 0, background: 'footsteps' },
  { file: 'rain.wav', state: 'can not tell', perMinute: 0, background: 'rain' },
];

mkdirSync(room, { recursive: true });
const manifest = fixtures.map((fixture, index) => {
  const { file, state, perMinute, rushing = false, background } = fixture;
  const { seconds = 16, rate_hz = 16_000, snr_db = 12, peak_dbfs = -12 } = fixture;
  const seed = 700 + index;
  const behind =
    background === undefined
      ? null
      : confounders[background](rate_hz, seconds, randomStream(seed, background));
  const { samples, onsets_s } = drawScene({
    rate_hz,
    seconds,
    perMinute,
    rushing,
    instrument: fixture.instrument ?? 'open microphone',
    background: behind,
    snr_db,
    peak_dbfs,
    seed,
  });
  writeFileSync(join(room, file), writeWav(samples, rate_hz));
  return {
    file,
    state,
    seconds,
    rate_hz,
    instrument: fixture.instrument ?? 'open microphone',
    background: background ?? 'hiss',
    snr_db: perMinute === 0 && !rushing ? null : snr_db,
    peak_dbfs,
    scratch_per_min: rushing ? null : Number(((onsets_s.length * 60) / seconds).toFixed(2)),
    onsets_s: onsets_s.map((onset) => Number(onset.toFixed(4))),
    seed,
    origin,
  };
});
writeFileSync(
  join(room, 'manifest.json'),
  `${JSON.stringify({ origin, files: manifest }, null, 1)}\n`,
);
