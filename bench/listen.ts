// npm run bench -- listen: what the detector hears, and what it makes up, in sketches of scratches
// laid over sketched and over recorded backgrounds; how sure it says it is; how fast it is.
import { type Confounder, confounders } from '../scripts/sound-sketch/confounders.ts';
import { rmsOf } from '../scripts/sound-sketch/grains.ts';
import { type Scene, drawScene } from '../scripts/sound-sketch/scene.ts';
import { Detector } from '../src/core/acoustics/detector.ts';
import { Sound } from '../src/core/domain/visit.ts';
import { randomStream } from '../src/core/numerics/random.ts';
import { callbackShare } from './listen/callback.ts';
import { devices } from './listen/devices.ts';
import { fast } from './listen/fast.ts';
import { type Recording, recordingRate_hz, recordings } from './listen/recordings.ts';
import type { Kind } from './listen/recording-sources.ts';
import { Score, heard, scoreHead } from './listen/score.ts';

const rate_hz = recordingRate_hz;
/** Seeds that were not used while the limits of the detector were set. */
const seed = 9000;
const seconds = 45;

function scene(changes: Partial<Scene>, draw: number): ReturnType<typeof drawScene> {
  const instrument = draw % 2 === 0 ? 'open microphone' : 'stethoscope';
  const plain = { rate_hz, seconds, perMinute: 50, background: null, snr_db: 10, peak_dbfs: -12 };
  return drawScene({ ...plain, instrument, seed: seed + draw, ...changes });
}

/** Sounds that came by themselves, one blow each. */
const blows: ReadonlySet<Kind> = new Set(['clicks', 'metal', 'bumps']);

/**
 * Recordings of a kind after each other, steps at a walking pace, keys as somebody types, blows at random
 * moments; with a hiss 35 dB below.
 */
function recorded(parts: readonly Recording[], kind: Kind, length_s: number): Float64Array {
  const random = randomStream(seed, kind, parts[0]?.package ?? '');
  const out = new Float64Array(length_s * rate_hz);
  for (let at_s = 0, part = 0; at_s < length_s; part++) {
    const { samples } = parts[part % parts.length]!;
    const first = Math.round(at_s * rate_hz);
    samples.forEach((sample, n) => {
      if (first + n < out.length) out[first + n] = out[first + n]! + sample;
    });
    const own_s = samples.length / rate_hz;
    if (kind === 'footsteps') at_s += 0.56 * random.normal(1, 0.04);
    else if (kind === 'keys')
      at_s +=
        Math.exp(random.normal(-1.7, 0.35)) + (random.chance(0.12) ? random.between(0.5, 3) : 0);
    else if (blows.has(kind)) at_s += Math.max(0.2, own_s) + random.gamma(1.5, 1);
    else at_s += Math.max(1, own_s);
  }
  const hiss = rmsOf(out) * 10 ** (-35 / 20);
  return out.map((sample) => sample + random.normal(0, hiss));
}

function precisionAndRecall(backgrounds: ReadonlyMap<string, Float64Array | null>): void {
  console.log(`\nbackground               SNR  ${scoreHead}`);
  for (const [name, background] of backgrounds) {
    for (const snr_db of [10, 6, 3]) {
      const score = new Score();
      for (let draw = 0; draw < 2; draw++) {
        const drawn = scene({ background, snr_db }, draw);
        score.add(heard(drawn.samples, rate_hz), drawn.onsets_s);
      }
      console.log(`${name.padEnd(24)} ${String(snr_db).padStart(3)}  ${score.line}`);
    }
  }
}

function falseEvents(alone: ReadonlyMap<string, Float64Array>): void {
  console.log(
    '\nalone                                              false events/min   state         counted',
  );
  for (const [name, samples] of alone) {
    const reading = heard(samples, rate_hz);
    const perMinute = (reading.events.length * 60) / reading.heard_s;
    console.log(
      `${name.padEnd(51)} ${perMinute.toFixed(1).padStart(15)}   ${reading.state.padEnd(13)} ${((100 * reading.usable_s) / reading.heard_s).toFixed(0)} %`,
    );
  }
}

const drawsEach = 24;

/** Rates drawn within each state, apart from the laws of the likelihood. */
const ratesOf = {
  quiet: [0, 0],
  occasional: [2, 6],
  steady: [15, 110],
  waterfall: [0, 0],
} as const;

function states(): void {
  const table = new Map<string, number>();
  const sure = new Map<number, { said: number; right: number; n: number }>();
  for (const state of Sound.options) {
    for (let draw = 0; draw < drawsEach; draw++) {
      const random = randomStream(seed, state, draw);
      const background = random.choice([null, 'wind', 'surf', 'speech', 'insects'] as const);
      const behind = background === null ? null : confounders[background](rate_hz, seconds, random);
      const [lowest, highest] = ratesOf[state];
      const perMinute = random.between(lowest, highest);
      const rushing = state === 'waterfall';
      const snr_db = random.between(4, 18);
      const made = scene({ perMinute, rushing, background: behind, snr_db }, 100 + draw);
      const { state: said, likelihood } = heard(made.samples, rate_hz);
      table.set(`${state}/${said}`, (table.get(`${state}/${said}`) ?? 0) + 1);
      for (const each of Sound.options) {
        const bin = Math.min(4, Math.floor(likelihood[each] * 5));
        const held = sure.get(bin) ?? { said: 0, right: 0, n: 0 };
        held.said += likelihood[each];
        held.right += each === state ? 1 : 0;
        held.n++;
        sure.set(bin, held);
      }
    }
  }
  const columns = [...Sound.options, 'can not tell'];
  console.log(`\ntrue \\ said    ${columns.map((name) => name.padStart(13)).join('')}`);
  for (const state of Sound.options) {
    const row = columns.map((name) => String(table.get(`${state}/${name}`) ?? 0).padStart(13));
    console.log(`${state.padEnd(14)} ${row.join('')}`);
  }
  console.log('\nlikelihood said   true      n');
  for (const [, { said, right, n }] of [...sure].sort(([a], [b]) => a - b)) {
    console.log(
      `${(said / n).toFixed(3).padStart(15)}  ${(right / n).toFixed(3)}  ${String(n).padStart(5)}`,
    );
  }
}

function speed(): void {
  const sound = Float32Array.from({ length: 44_100 * 60 }, (_, n) => Math.sin(n * n) * 0.05);
  const detector = new Detector(44_100);
  const memory = process.memoryUsage().rss;
  const began = process.cpuUsage();
  for (let at = 0; at < sound.length; at += 2048) detector.push(sound.subarray(at, at + 2048));
  detector.finish();
  const { user, system } = process.cpuUsage(began);
  const grown = (process.memoryUsage().rss - memory) / 2 ** 20;
  console.log(
    `\n60 s at 44.1 kHz: ${(60e6 / (user + system)).toFixed(0)} times real time by CPU time, memory grew by ${grown.toFixed(0)} MB`,
  );
}

/** What goes on behind scratches for long. */
const isBehind: ReadonlySet<Kind> = new Set(['speech', 'wind', 'insects', 'forest']);

/** Prints everything; fetches the recordings on the first run. */
export async function run(): Promise<void> {
  const names = ['hiss', 'wind', 'surf', 'speech', 'insects', 'bumps'] as const;
  const sketch = (name: Confounder, length_s: number): Float64Array =>
    confounders[name](rate_hz, length_s, randomStream(seed, name));
  const all = await recordings();
  const backgrounds = new Map<string, Float64Array | null>(
    names.map((name) => [name, name === 'hiss' ? null : sketch(name, seconds)]),
  );
  const alone = new Map<string, Float64Array>(
    [...names, 'footsteps' as const, 'rain' as const].map((name) => {
      const random = randomStream(seed, 'quiet', name);
      return [name, sketch(name, 60).map((sample) => 0.1 * sample + random.normal(0, 0.002))];
    }),
  );
  for (const part of ['tuning', 'held out'] as const) {
    for (const kind of new Set(all.map((recording) => recording.kind))) {
      if (kind === 'granular') continue;
      const own = all.filter((recording) => recording.kind === kind && recording.part === part);
      for (const name of new Set(own.map((recording) => recording.package))) {
        const of = own.filter((recording) => recording.package === name);
        alone.set(`${part}: ${kind} (${name})`, recorded(of, kind, 60));
      }
      if (own.length === 0 || !isBehind.has(kind)) continue;
      backgrounds.set(`${part}: ${kind}`, recorded(own, kind, seconds));
    }
  }
  precisionAndRecall(backgrounds);
  falseEvents(alone);
  fast(seed);
  devices(seed);
  states();
  speed();
  await callbackShare();
  const sources = new Set(
    all.map(
      ({ package: name, licence, glob, kind, part }) =>
        `${kind} (${part}): ${name}, ${licence} (${glob})`,
    ),
  );
  console.log(`\nRecordings:\n${[...sources].join('\n')}`);
}
