/** A share whose odds are multiplied by a factor: `factor x s / (factor x s + 1 - s)`. */
export function oddsTimes(share: number, factor: number): number {
  return (factor * share) / (factor * share + 1 - share);
}
