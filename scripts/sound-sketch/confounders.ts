import type { Random } from '../../src/core/numerics/random.ts';
import { filter } from './filters.ts';
import { addGrain, toRms } from './grains.ts';

/** What a microphone hears on a beach besides a nest; all of root mean square 1, all sketches (G). */
export const confounders = {
  hiss,
  wind,
  surf,
  speech,
  insects,
  bumps,
  footsteps,
  rain,
} as const;
export type Confounder = keyof typeof confounders;

type Sound = (rate_hz: number, seconds: number, random: Random) => Float64Array;

function noise(rate_hz: number, seconds: number, random: Random): Float64Array {
  return Float64Array.from({ length: Math.ceil(seconds * rate_hz) }, () => random.normal(0, 1));
}

/** The microphone's own floor. */
function hiss(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  return toRms(noise(rate_hz, seconds, random), 1);
}

/** Slow wandering between 0 and about 1 with this time constant. */
function wander(count: number, step_s: number, slow_s: number, random: Random): Float64Array {
  let at = 0;
  return Float64Array.from({ length: count }, () => {
    at += (-at * step_s) / slow_s + random.normal(0, Math.sqrt((2 * step_s) / slow_s));
    return at;
  });
}

function swelled(
  samples: Float64Array,
  rate_hz: number,
  slow_s: number,
  depth: number,
  random: Random,
): Float64Array {
  const step = Math.round(0.02 * rate_hz);
  const drift = wander(Math.ceil(samples.length / step) + 2, 0.02, slow_s, random);
  return samples.map((sample, n) => {
    const at = n / step;
    const low = Math.floor(at);
    const between = drift[low]! + (at - low) * (drift[low + 1]! - drift[low]!);
    return sample * Math.exp(depth * between);
  });
}

/** Gusts: rumble below some 150 Hz, its hiss far weaker. */
function wind(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  const raw = noise(rate_hz, seconds, random);
  const rumble = toRms(filter(filter(raw, rate_hz, 'low-pass', 120), rate_hz, 'high-pass', 25), 1);
  const hissing = toRms(filter(raw, rate_hz, 'low-pass', 900), 0.08);
  return toRms(
    swelled(
      rumble.map((sample, n) => sample + hissing[n]!),
      rate_hz,
      0.9,
      0.5,
      random,
    ),
    1,
  );
}

/** Waves that break every 6-11 s: a slow swell of noise, brighter as it breaks. */
function surf(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  const raw = noise(rate_hz, seconds, random);
  const far = toRms(filter(raw, rate_hz, 'low-pass', 500), 0.6);
  const near = toRms(filter(filter(raw, rate_hz, 'low-pass', 2500), rate_hz, 'high-pass', 250), 1);
  const out = new Float64Array(raw.length);
  for (let from_s = -random.between(0, 8); from_s < seconds; from_s += random.between(6, 11)) {
    const [rise_s, fall_s] = [random.between(1, 2), random.between(2, 3.5)];
    const gain = random.between(0.5, 1);
    const first = Math.max(0, Math.round(from_s * rate_hz));
    for (let n = first; n < raw.length && n < (from_s + rise_s + 4 * fall_s) * rate_hz; n++) {
      const t_s = n / rate_hz - from_s;
      const swell = t_s < rise_s ? (t_s / rise_s) ** 2 : Math.exp(-(t_s - rise_s) / fall_s);
      out[n] = out[n]! + gain * swell * near[n]!;
    }
  }
  return toRms(
    out.map((sample, n) => sample + 0.35 * far[n]!),
    1,
  );
}

/** A voice without words: pulses at a gliding pitch through three formants, syllables, hissing consonants. */
function speech(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  const vowels = new Float64Array(Math.ceil(seconds * rate_hz));
  const consonants = new Float64Array(vowels.length);
  const pitch_hz = random.between(95, 220);
  for (let at_s = 0.2; at_s < seconds - 0.5;) {
    if (random.chance(0.12)) at_s += random.between(0.3, 1);
    if (random.chance(0.4)) {
      const length_s = random.between(0.05, 0.14);
      addConsonant(consonants, rate_hz, at_s, length_s, random);
      at_s += length_s;
    }
    const length_s = random.between(0.1, 0.26);
    addVowel(vowels, rate_hz, at_s, length_s, pitch_hz * random.between(0.85, 1.2), random);
    at_s += length_s + random.between(0.01, 0.07);
  }
  const voiced = toRms(vowels, 1);
  return toRms(
    voiced.map((sample, n) => sample + consonants[n]!),
    1,
  );
}

function addVowel(
  into: Float64Array,
  rate_hz: number,
  at_s: number,
  length_s: number,
  pitch_hz: number,
  random: Random,
): void {
  const formants_hz = [random.between(300, 800), random.between(900, 2200), 2700];
  const pulses = new Float64Array(Math.ceil((length_s + 0.03) * rate_hz));
  const glide = random.between(-0.15, 0.15);
  for (let t_s = 0; t_s < length_s; t_s += 1 / (pitch_hz * (1 + (glide * t_s) / length_s))) {
    pulses[Math.round(t_s * rate_hz)] = Math.sin((Math.PI * t_s) / length_s) ** 0.6;
  }
  const source = filter(pulses, rate_hz, 'low-pass', 900, 0.5);
  const first = Math.round(at_s * rate_hz);
  const rings = formants_hz.map((formant_hz) => filter(source, rate_hz, 'peak', formant_hz, 8));
  for (let n = 0; n < pulses.length && first + n < into.length; n++) {
    const sum = rings[0]![n]! + 0.5 * rings[1]![n]! + 0.25 * rings[2]![n]!;
    into[first + n] = into[first + n]! + sum;
  }
}

function addConsonant(
  into: Float64Array,
  rate_hz: number,
  at_s: number,
  length_s: number,
  random: Random,
): void {
  const raw = noise(rate_hz, length_s, random);
  const hissing = toRms(filter(raw, rate_hz, 'high-pass', random.between(1800, 3800)), 1);
  const first = Math.round(at_s * rate_hz);
  const gain = random.between(0.1, 0.35);
  for (let n = 0; n < hissing.length && first + n < into.length; n++) {
    const swell = Math.sin((Math.PI * n) / hissing.length);
    into[first + n] = into[first + n]! + gain * swell * hissing[n]!;
  }
}

/** Crickets: trains of short pulses of one pitch. */
function insects(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  const out = new Float64Array(Math.ceil(seconds * rate_hz));
  for (let singer = 0; singer < 3; singer++) {
    const pitch_hz = Math.min(0.45 * rate_hz, random.between(2600, 5400));
    const gain = random.between(0.3, 1);
    for (let at_s = random.between(0, 1); at_s < seconds; at_s += random.between(0.35, 0.9)) {
      const pulses = 2 + random.below(4);
      for (let pulse = 0; pulse < pulses; pulse++) {
        const first = Math.round((at_s + 0.032 * pulse) * rate_hz);
        const length = Math.round(0.018 * rate_hz);
        for (let n = 0; n < length && first + n < out.length; n++) {
          const swell = Math.sin((Math.PI * n) / length) ** 2;
          const tone = Math.sin((2 * Math.PI * pitch_hz * (first + n)) / rate_hz);
          out[first + n] = out[first + n]! + gain * swell * tone;
        }
      }
    }
  }
  return toRms(out, 1);
}

/** A hand or a knee against the head: low, loud, long. */
function bumps(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  const out = new Float64Array(Math.ceil(seconds * rate_hz));
  for (let at_s = random.between(0, 3); at_s < seconds; at_s += random.gamma(3, 2)) {
    addThump(out, rate_hz, at_s, random.between(40, 130), random.between(0.04, 0.12), 1, random);
    const knock = random.between(0.02, 0.12);
    for (let grain = 0; grain < 4; grain++) {
      addGrain(out, rate_hz, at_s + random.between(0, 0.01), knock, random);
    }
  }
  return toRms(out, 1);
}

/** Feet in sand: a thump and a crunch, at an even pace. */
function footsteps(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  const out = new Float64Array(Math.ceil(seconds * rate_hz));
  const pace_s = random.between(0.48, 0.68);
  for (let at_s = random.between(0, 0.5); at_s < seconds; at_s += pace_s * random.normal(1, 0.04)) {
    const loud = random.between(0.6, 1);
    addThump(out, rate_hz, at_s, random.between(60, 140), random.between(0.02, 0.05), loud, random);
    const grains = 40 + random.below(70);
    for (let grain = 0; grain < grains; grain++) {
      const along = random.uniform();
      addGrain(out, rate_hz, at_s + 0.16 * along, 0.35 * loud * (1 - 0.7 * along), random);
    }
  }
  return toRms(out, 1);
}

/** Drops on sand, and the hiss of those farther off. */
function rain(...[rate_hz, seconds, random]: Parameters<Sound>): Float64Array {
  const raw = noise(rate_hz, seconds, random);
  const out = toRms(filter(raw, rate_hz, 'high-pass', 500), 0.5);
  const drops = random.poisson(seconds * random.between(15, 70));
  for (let drop = 0; drop < drops; drop++) {
    const gain = Math.exp(random.normal(0, 0.8));
    const at_s = seconds * random.uniform();
    for (let grain = 0; grain < 4; grain++) {
      addGrain(out, rate_hz, at_s + random.between(0, 0.006), gain, random);
    }
  }
  return toRms(out, 1);
}

function addThump(
  into: Float64Array,
  rate_hz: number,
  at_s: number,
  pitch_hz: number,
  decay_s: number,
  gain: number,
  random: Random,
): void {
  const first = Math.round(at_s * rate_hz);
  const phase = random.between(0, 2 * Math.PI);
  for (let n = 0; n < 6 * decay_s * rate_hz && first + n < into.length; n++) {
    const t_s = n / rate_hz;
    const attack = Math.min(1, t_s / 0.006);
    const ring = Math.sin(2 * Math.PI * pitch_hz * t_s + phase);
    into[first + n] = into[first + n]! + 3 * gain * attack * Math.exp(-t_s / decay_s) * ring;
  }
}
