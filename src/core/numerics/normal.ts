const { PI, exp, sqrt } = Math;

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return exp((-z * z) / 2) / sqrt(2 * PI);
}

/**
 * Cumulative distribution of the standard normal, to about 1e-15 in absolute terms.
 * Method: the power series of Phi(z) - 1/2 about 0 (Marsaglia 2004, "Evaluating the Normal
 * Distribution", Journal of Statistical Software 11(4)); past 8.5 the rest is below 1e-17.
 */
export function normalCdf(z: number): number {
  if (z < -8.5) return 0;
  if (z > 8.5) return 1;
  let sum = z;
  let term = z;
  for (let odd = 3, previous = NaN; sum !== previous; odd += 2) {
    previous = sum;
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + sum * normalDensity(z);
}
