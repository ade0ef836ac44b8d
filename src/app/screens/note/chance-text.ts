/**
 * A probability as it is shown: whole percents, and never 0 % or 100 %, since only a sighting is
 * certain.
 */
export function chanceText(p: number): string {
  if (p < 0.01) return '<1 %';
  if (p > 0.99) return '>99 %';
  return `${Math.round(p * 100)} %`;
}
