/** An even grid: `count` points from `first` on, `step` apart. */
export interface EvenGrid {
  readonly first: number;
  readonly step: number;
  readonly count: number;
}

/** An even grid from `-reach` to `reach`. */
export function gridTo(reach: number, step: number): EvenGrid {
  const half = Math.round(reach / step);
  return { first: -half * step, step, count: 2 * half + 1 };
}

/** The points of a grid, in order. */
export function gridPoints({ first, step, count }: EvenGrid): Float64Array {
  return Float64Array.from({ length: count }, (_, index) => first + index * step);
}

/**
 * Nodes of the quadrature over a normal: z and its weight, half a standard deviation apart; weights
 * sum to 1. For smooth functions the trapezoid rule is exact to exp(-2 pi^2 / 0.5^2) at that step.
 */
const reach_sd = 5;
const nodes = 21;
export const normalNodes = Float64Array.from(
  { length: nodes },
  (_, index) => -reach_sd + (2 * reach_sd * index) / (nodes - 1),
);
const unscaled = normalNodes.map((z) => Math.exp((-z * z) / 2));
const total = unscaled.reduce((sum, weight) => sum + weight, 0);
export const normalWeights = unscaled.map((weight) => weight / total);

/**
 * Cubic (four-point Lagrange) interpolation weights for a place on the grid, written into `into`
 * (4 values); gives the index of the first of the four points. Places off the grid are read as its
 * ends.
 */
export function cubicWeights(grid: EvenGrid, place: number, into: Float64Array): number {
  const at = Math.min(grid.count - 1, Math.max(0, (place - grid.first) / grid.step));
  const start = Math.min(grid.count - 4, Math.max(0, Math.floor(at) - 1));
  const t = at - start;
  into[0] = ((t - 1) * (t - 2) * (t - 3)) / -6;
  into[1] = (t * (t - 2) * (t - 3)) / 2;
  into[2] = (t * (t - 1) * (t - 3)) / -2;
  into[3] = (t * (t - 1) * (t - 2)) / 6;
  return start;
}

/**
 * Weights on the grid points that integrate a smooth function against a normal distribution:
 * sum of weight x f(point) is the mean of f. They sum to 1. Exact to the interpolation, also for a
 * normal much narrower than the grid's step.
 */
export function weightsOfNormal(
  grid: EvenGrid,
  mean: number,
  sd: number,
  into: Float64Array,
): void {
  into.fill(0);
  const cubic = new Float64Array(4);
  for (let node = 0; node < normalNodes.length; node++) {
    const weight = normalWeights[node]!;
    const start = cubicWeights(grid, mean + sd * normalNodes[node]!, cubic);
    for (let k = 0; k < 4; k++) into[start + k] = into[start + k]! + weight * cubic[k]!;
  }
}
