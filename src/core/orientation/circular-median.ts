import { shortTurn_deg, turn_deg } from '../numerics/angle.ts';

/**
 * Median direction: of the lines through the middle that leave as many bearings on one side as on the
 * other, the one near the most of them, degrees 0 up to 360. Null when there are none or when several
 * directions serve equally well. Source: Zar 2010, section 26.6; Mardia & Jupp 2000, section 2.2.2.
 */
export function circularMedian(bearings_deg: readonly number[]): number | null {
  const sorted = bearings_deg.map(turn_deg).sort((a, b) => a - b);
  const n = sorted.length;
  // An odd number: one of the bearings. An even one: half way between two neighbours.
  const candidates =
    n % 2 === 1
      ? sorted
      : sorted.map((bearing, index) => {
          const next = sorted[(index + 1) % n] ?? bearing;
          return turn_deg(bearing + turn_deg(next - bearing) / 2);
        });
  let [best, least, isTied] = [null as number | null, Infinity, false];
  for (const candidate of candidates) {
    const away = sorted.reduce((sum, deg) => sum + Math.abs(shortTurn_deg(deg - candidate)), 0);
    if (away > least + 1e-9) continue;
    const isSame = best !== null && Math.abs(shortTurn_deg(candidate - best)) < 1e-9;
    isTied = Math.abs(away - least) <= 1e-9 && !isSame;
    if (!isTied) [best, least] = [candidate, Math.min(away, least)];
  }
  return isTied ? null : best;
}
