import { type Sound, Sound as SoundWord } from '../domain/visit.ts';

/** What a listening found, as far as the four sound states depend on it. */
export interface Heard {
  /** Scratches in the time that counted. */
  readonly events: number;
  /** How many of them may be none, a minute, by what was rejected around them; none when not given. */
  readonly leak_per_min?: number;
  /** Seconds in which something could be heard. */
  readonly usable_s: number;
  /** Share of those with scratching or a rush, 0 to 1. */
  readonly active_share: number;
  /** Share of them that was one rush. */
  readonly rush_share: number;
  /** How poor the conditions were, 0 to 1: noise, talk, faults of the signal. */
  readonly poor: number;
}

/** One number for each sound state. */
export type ByState = Readonly<Record<Sound, number>>;

/**
 * Scratches a minute in each state: median and spread of its logarithm. Quiet holds what the
 * detector makes up by itself. Guesses (G): no rate has been published. The borders lie near 1, 8
 * and 75 a minute; a rush is told by its share of the time rather than by counting.
 */
const rates: Readonly<Record<Sound, { readonly median: number; readonly spread: number }>> = {
  quiet: { median: 0.3, spread: 1 },
  occasional: { median: 2.6, spread: 0.8 },
  steady: { median: 26, spread: 0.85 },
  waterfall: { median: 220, spread: 0.7 },
};

/** Beta laws of the active share in each state (G). */
const shares: Readonly<Record<Sound, { readonly a: number; readonly b: number }>> = {
  quiet: { a: 1, b: 60 },
  occasional: { a: 1.1, b: 25 },
  steady: { a: 1.6, b: 7 },
  waterfall: { a: 6, b: 1.8 },
};

/** The share says again some of what the count says: it counts by half. */
const sharePower = 0.5;
/** What no listening can rule out: the detector or these laws are wrong. */
const doubt = 0.02;

/**
 * Likelihood of what was heard under each state, scaled to sum to one: with even odds beforehand, the
 * probability of each. Poor conditions and short listening make it flatter; nothing heard of anything
 * gives a quarter each.
 */
export function stateLikelihood(heard: Heard): ByState {
  const minutes = heard.usable_s / 60;
  if (minutes <= 0) return evenStates;
  const counted = 1 - heard.rush_share;
  const logs = SoundWord.options.map(
    (state) =>
      counted * Math.log(countLikelihood(heard.events, minutes, state, heard.leak_per_min ?? 0)) +
      sharePower * shareLog(heard.active_share, state),
  );
  const highest = Math.max(...logs);
  const power = 1 - 0.8 * heard.poor;
  const raised = logs.map((log) => Math.exp(power * (log - highest)));
  const total = raised.reduce((sum, value) => sum + value, 0);
  const mixed = doubt + 0.3 * heard.poor;
  return byState((index) => (1 - mixed) * ((raised[index] ?? 0) / total) + mixed / 4);
}

function byState(value: (index: number) => number): ByState {
  return { quiet: value(0), occasional: value(1), steady: value(2), waterfall: value(3) };
}

/** Nothing is known. */
export const evenStates: ByState = byState(() => 0.25);

/** How far the leak may be off, as factors with their weights (G). */
const leakFactors = [
  [0.3, 0.3],
  [1, 0.4],
  [3, 0.3],
] as const;

/**
 * Poisson counts whose rate is log-normal, by the midpoint rule over 4 spreads on each side, with the
 * leak added to every state alike.
 */
function countLikelihood(events: number, minutes: number, state: Sound, leak: number): number {
  const { median, spread } = rates[state];
  const steps = 48;
  const known = leak > 0 ? leakFactors : ([[0, 1]] as const);
  let sum = 0;
  for (let step = 0; step < steps; step++) {
    const z = -4 + (8 * (step + 0.5)) / steps;
    const rate = median * Math.exp(spread * z);
    for (const [factor, weight] of known) {
      const expected = (rate + factor * leak) * minutes;
      const log = events * Math.log(expected) - expected - logFactorial(events);
      sum += weight * Math.exp(-0.5 * z * z + log);
    }
  }
  return Math.max(1e-12, (sum * 8) / steps / Math.sqrt(2 * Math.PI));
}

/** Log of n!, exact up to 20, by Stirling's series from there (error below 1e-6). */
function logFactorial(n: number): number {
  let log = 0;
  if (n <= 20) {
    for (let k = 2; k <= n; k++) log += Math.log(k);
    return log;
  }
  return n * Math.log(n) - n + 0.5 * Math.log(2 * Math.PI * n) + 1 / (12 * n) - 1 / (360 * n ** 3);
}

function shareLog(share: number, state: Sound): number {
  const { a, b } = shares[state];
  const inside = Math.min(0.97, Math.max(0.003, share));
  return (a - 1) * Math.log(inside) + (b - 1) * Math.log(1 - inside) - shareScale[state];
}

const shareScale = byState((index) => {
  const { a, b } = shares[SoundWord.options[index] ?? 'quiet'];
  return betaLog(a, b);
});

/** Log of the beta function, by quadrature: it is wanted four times, at the start. */
function betaLog(a: number, b: number): number {
  let sum = 0;
  const steps = 4000;
  for (let step = 0; step < steps; step++) {
    const x = (step + 0.5) / steps;
    sum += x ** (a - 1) * (1 - x) ** (b - 1);
  }
  return Math.log(sum / steps);
}
