import { cholesky, invertCholesky, logDeterminant, solveCholesky } from '../numerics/cholesky.ts';
import { type EvenGrid, cubicWeights, normalNodes, normalWeights } from './grid-function.ts';

/**
 * Many cases that share some effects: case i speaks of eta_i = x_i' beta through a log-likelihood
 * on a grid of eta. `terms` effects a case, by index and weight (weight 0 = not used); case-major.
 */
export interface SharedCases {
  readonly count: number;
  readonly terms: number;
  readonly effect: Int32Array;
  readonly weight: Float64Array;
  readonly grid: EvenGrid;
  /** Case-major log-likelihoods on the grid. */
  readonly logLikelihood: readonly Float64Array[];
}

/** A normal approximation to the effects given all cases, and eta of each case given the others. */
export interface EffectPosterior {
  readonly mean: Float64Array;
  /** Row-major. */
  readonly covariance: Float64Array;
  /** Mean and SD of eta_i given every case but i. */
  readonly cavityMean: Float64Array;
  readonly cavitySd: Float64Array;
  readonly sites: Sites;
  readonly logEvidence: number;
  readonly sweeps: number;
  readonly converged: boolean;
}

export interface PropagationOptions {
  readonly damping?: number;
  readonly maxSweeps?: number;
  /** Converged when no mean of an eta moves by more than this share of its SD in a sweep. */
  readonly tolerance?: number;
  /** Prior precision times prior mean; zero unless given. */
  readonly priorShift?: Float64Array;
  /** Sites to start from: those of a like problem, such as this one before a note was added. */
  readonly start?: Sites | null;
}

/** What each case says of its eta as a normal: precision, and precision times mean. */
export interface Sites {
  readonly tau: Float64Array;
  readonly nu: Float64Array;
}

/**
 * Expectation propagation (Minka 2001, "Expectation Propagation for approximate Bayesian inference",
 * UAI 17) with one-dimensional sites: all sites are refreshed in one sweep, damped; tilted moments by
 * quadrature over the cavity. Site precisions may be slightly negative (heavy tails) within a
 * bound. `priorPrecision` is row-major, positive definite. Says when it did not converge, and never
 * gives NaN: a sweep that would break the precision matrix is taken back and damped harder.
 */
export function propagate(
  cases: SharedCases,
  priorPrecision: Float64Array,
  options: PropagationOptions = {},
): EffectPosterior {
  const { maxSweeps = 40, tolerance = 1e-5 } = options;
  let damping = options.damping ?? 0.7;
  const { count } = cases;
  const size = Math.round(Math.sqrt(priorPrecision.length));
  const speaks = cases.logLikelihood.map(isInformative);
  const sites = startFrom(options.start ?? null, speaks);
  const prior = { precision: priorPrecision, shift: options.priorShift ?? new Float64Array(size) };
  let gaussian = combine(cases, prior, size, sites.tau, sites.nu);
  if (gaussian === null) {
    sites.tau.fill(0);
    sites.nu.fill(0);
    gaussian = combine(cases, prior, size, sites.tau, sites.nu);
  }
  if (gaussian === null) throw new RangeError('The prior precision is not positive definite.');
  const cavity = { mean: new Float64Array(count), variance: new Float64Array(count) };
  const logNorm = new Float64Array(count);
  const previous = new Float64Array(count);
  const variance = new Float64Array(count);
  let converged = false;
  let sweeps = 0;
  while (sweeps < maxSweeps && !converged) {
    sweeps++;
    const next = { tau: sites.tau.slice(), nu: sites.nu.slice() };
    for (let i = 0; i < count; i++) {
      if (!speaks[i]!) continue;
      variance[i] = takeOut(cases, gaussian, size, sites, i, cavity);
      refresh(cases, i, cavity, sites, next, logNorm, damping);
    }
    const combined = combine(cases, prior, size, next.tau, next.nu);
    if (combined === null) {
      damping /= 2;
      for (let i = 0; i < count; i++) {
        if (sites.tau[i]! < 0) sites.tau[i] = sites.nu[i] = 0;
      }
      gaussian = combine(cases, prior, size, sites.tau, sites.nu) ?? gaussian;
      continue;
    }
    gaussian = combined;
    sites.tau.set(next.tau);
    sites.nu.set(next.nu);
    converged = move(cases, gaussian.mean, variance, previous) < tolerance;
  }
  for (let i = 0; i < count; i++) {
    takeOut(cases, gaussian, size, sites, i, cavity);
    if (speaks[i]!) logNorm[i] = tilted(cases, i, cavity.mean[i]!, cavity.variance[i]!).logNorm;
  }
  return {
    mean: gaussian.mean,
    covariance: gaussian.covariance,
    cavityMean: cavity.mean,
    cavitySd: cavity.variance.map(Math.sqrt),
    sites,
    logEvidence: evidence(cases, gaussian, prior, size, sites, cavity, logNorm, speaks),
    sweeps,
    converged,
  };
}

/** Copies of the sites given, none for cases that say nothing; all none when they do not fit. */
function startFrom(start: Sites | null, speaks: readonly boolean[]): Sites {
  const count = speaks.length;
  if (start?.tau.length !== count) {
    return { tau: new Float64Array(count), nu: new Float64Array(count) };
  }
  return {
    tau: start.tau.map((tau, i) => (speaks[i]! ? tau : 0)),
    nu: start.nu.map((nu, i) => (speaks[i]! ? nu : 0)),
  };
}

interface Gaussian {
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
  readonly logDetPrecision: number;
  /** r' Q^-1 r, with r the sum of the sites' shifts. */
  readonly square: number;
}

interface Prior {
  readonly precision: Float64Array;
  readonly shift: Float64Array;
}

interface Cavity {
  readonly mean: Float64Array;
  readonly variance: Float64Array;
}

/** A case says something when its likelihood is not the same at all levels. */
function isInformative(log: Float64Array): boolean {
  let low = Infinity;
  let high = -Infinity;
  for (const value of log) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low > 1e-9;
}

function combine(
  { count, terms, effect, weight }: SharedCases,
  prior: Prior,
  size: number,
  tau: Float64Array,
  nu: Float64Array,
): Gaussian | null {
  const precision = prior.precision.slice();
  const shift = prior.shift.slice();
  for (let i = 0; i < count; i++) {
    const t = tau[i]!;
    const n = nu[i]!;
    if (t === 0 && n === 0) continue;
    for (let a = i * terms; a < (i + 1) * terms; a++) {
      const row = effect[a]!;
      const w = weight[a]!;
      if (w === 0) continue;
      shift[row] = shift[row]! + n * w;
      for (let b = i * terms; b < (i + 1) * terms; b++) {
        const cell = row * size + effect[b]!;
        precision[cell] = precision[cell]! + t * w * weight[b]!;
      }
    }
  }
  const factor = new Float64Array(size * size);
  if (!cholesky(precision, size, factor)) return null;
  const mean = shift.slice();
  solveCholesky(factor, size, mean);
  const covariance = new Float64Array(size * size);
  invertCholesky(factor, size, covariance);
  let square = 0;
  for (let k = 0; k < size; k++) square += shift[k]! * mean[k]!;
  if (!Number.isFinite(square)) return null;
  return { mean, covariance, logDetPrecision: logDeterminant(factor, size), square };
}

function varianceOf(
  { terms, effect, weight }: SharedCases,
  covariance: Float64Array,
  size: number,
  i: number,
): number {
  let sum = 0;
  for (let a = i * terms; a < (i + 1) * terms; a++) {
    const w = weight[a]!;
    if (w === 0) continue;
    for (let b = i * terms; b < (i + 1) * terms; b++) {
      sum += w * weight[b]! * covariance[effect[a]! * size + effect[b]!]!;
    }
  }
  return sum;
}

/** Takes the site of a case out of the marginal of its eta; gives the variance of that marginal. */
function takeOut(
  cases: SharedCases,
  gaussian: Gaussian,
  size: number,
  { tau, nu }: Sites,
  i: number,
  cavity: Cavity,
): number {
  const { terms, effect, weight } = cases;
  const variance = varianceOf(cases, gaussian.covariance, size, i);
  let mean = 0;
  for (let a = i * terms; a < (i + 1) * terms; a++) mean += weight[a]! * gaussian.mean[effect[a]!]!;
  if (variance <= 0) {
    cavity.mean[i] = mean;
    cavity.variance[i] = 0;
    return 0;
  }
  const precision = Math.max(1 / variance - tau[i]!, 1e-3 / variance);
  cavity.variance[i] = 1 / precision;
  cavity.mean[i] = (mean / variance - nu[i]!) / precision;
  return variance;
}

function refresh(
  cases: SharedCases,
  i: number,
  cavity: Cavity,
  sites: Sites,
  next: Sites,
  logNorm: Float64Array,
  damping: number,
): void {
  const variance = cavity.variance[i]!;
  if (variance <= 0) return;
  const mean = cavity.mean[i]!;
  const moments = tilted(cases, i, mean, variance);
  logNorm[i] = moments.logNorm;
  // A site may take away at most half of what the others say.
  const tau = Math.max(1 / moments.variance - 1 / variance, -0.5 / variance);
  const nu = moments.mean * (1 / variance + tau) - mean / variance;
  if (!Number.isFinite(tau) || !Number.isFinite(nu)) return;
  next.tau[i] = sites.tau[i]! + damping * (tau - sites.tau[i]!);
  next.nu[i] = sites.nu[i]! + damping * (nu - sites.nu[i]!);
}

const cubic = new Float64Array(4);
const logAt = new Float64Array(normalNodes.length);

/** Norm, mean and variance of the cavity times the likelihood, by quadrature. */
function tilted(
  { grid, logLikelihood }: SharedCases,
  i: number,
  mean: number,
  variance: number,
): { logNorm: number; mean: number; variance: number } {
  const log = logLikelihood[i]!;
  const sd = Math.sqrt(variance);
  let largest = -Infinity;
  for (let node = 0; node < normalNodes.length; node++) {
    const start = cubicWeights(grid, mean + sd * normalNodes[node]!, cubic);
    const value =
      cubic[0]! * log[start]! +
      cubic[1]! * log[start + 1]! +
      cubic[2]! * log[start + 2]! +
      cubic[3]! * log[start + 3]!;
    logAt[node] = value;
    if (value > largest) largest = value;
  }
  let norm = 0;
  let first = 0;
  let second = 0;
  for (let node = 0; node < normalNodes.length; node++) {
    const weight = normalWeights[node]! * Math.exp(logAt[node]! - largest);
    const z = normalNodes[node]!;
    norm += weight;
    first += weight * z;
    second += weight * z * z;
  }
  const z = first / norm;
  return {
    logNorm: Math.log(norm) + largest,
    mean: mean + sd * z,
    variance: Math.max(variance * (second / norm - z * z), variance * 1e-6),
  };
}

/**
 * The largest move of the mean of an eta since the last sweep, in standard deviations; writes the
 * means down for the next. Cases that say nothing (variance 0) are left out.
 */
function move(
  { count, terms, effect, weight }: SharedCases,
  mean: Float64Array,
  variance: Float64Array,
  previous: Float64Array,
): number {
  let largest = 0;
  for (let i = 0; i < count; i++) {
    if (variance[i]! <= 0) continue;
    let now = 0;
    for (let a = i * terms; a < (i + 1) * terms; a++) now += weight[a]! * mean[effect[a]!]!;
    largest = Math.max(largest, Math.abs(now - previous[i]!) / Math.sqrt(variance[i]!));
    previous[i] = now;
  }
  return largest;
}

/** Log of the evidence as expectation propagation estimates it (normals with one-dimensional sites). */
function evidence(
  { logLikelihood }: SharedCases,
  gaussian: Gaussian,
  prior: Prior,
  size: number,
  { tau, nu }: Sites,
  cavity: Cavity,
  logNorm: Float64Array,
  speaks: readonly boolean[],
): number {
  const factor = new Float64Array(size * size);
  cholesky(prior.precision, size, factor);
  const priorMean = prior.shift.slice();
  solveCholesky(factor, size, priorMean);
  const priorSquare = priorMean.reduce((sum, mean, k) => sum + mean * prior.shift[k]!, 0);
  let log = (logDeterminant(factor, size) - gaussian.logDetPrecision) / 2;
  log += (gaussian.square - priorSquare) / 2;
  speaks.forEach((speaking, i) => {
    const variance = cavity.variance[i]!;
    if (!speaking) log += logLikelihood[i]![0]!;
    if (!speaking || variance <= 0) return;
    const mean = cavity.mean[i]!;
    const together = 1 / variance + tau[i]!;
    const shift = mean / variance + nu[i]!;
    log += logNorm[i]! + Math.log(Math.max(1 + tau[i]! * variance, 1e-12)) / 2;
    log += ((mean * mean) / variance - (shift * shift) / together) / 2;
  });
  return log;
}
