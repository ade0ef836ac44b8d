// Many strokes a minute at random moments, so that some lie on top of each other.
import { openMicrophone, stethoscope } from '../../scripts/sound-sketch/filters.ts';
import { scratch } from '../../scripts/sound-sketch/grains.ts';
import { randomStream } from '../../src/core/numerics/random.ts';
import { Score, heard, scoreHead } from './score.ts';

const rate_hz = 16_000;
const seconds = 40;

/** Prints a line a rate, 10 dB over the hiss of the microphone. */
export function fast(seed: number): void {
  console.log(`\nstrokes a minute      ${scoreHead}  states`);
  for (const perMinute of [30, 60, 90, 120, 180, 240]) {
    const score = new Score();
    const states: string[] = [];
    for (let draw = 0; draw < 4; draw++) {
      const random = randomStream(seed, 'fast', perMinute, draw);
      const strokes = new Float64Array(seconds * rate_hz);
      const onsets_s: number[] = [];
      for (
        let at_s = 0.3 + random.gamma(60 / perMinute, 1);
        at_s < seconds - 1;
        at_s += random.gamma(60 / perMinute, 1)
      ) {
        onsets_s.push(at_s);
        const gain = 10 ** (random.normal(0, 2) / 20);
        const first = Math.round(at_s * rate_hz);
        scratch(rate_hz, random).forEach((sample, n) => {
          if (first + n < strokes.length) strokes[first + n] = strokes[first + n]! + gain * sample;
        });
      }
      const heardThrough = (draw % 2 === 0 ? openMicrophone : stethoscope)(strokes, rate_hz);
      const reading = heard(
        heardThrough.map((sample) => 0.02 * (10 ** (10 / 20) * sample + random.normal(0, 1))),
        rate_hz,
      );
      score.add(reading, onsets_s);
      states.push(reading.state);
    }
    console.log(
      `${String(perMinute).padEnd(22)}${score.line.slice(0)}  ${[...new Set(states)].join(', ')}`,
    );
  }
}
