/** No chance is shown as 0 or 100 percent short of a sighting. */
export function percent(p: number): string {
  if (p < 0.005) return '<1 %';
  if (p > 0.995) return '>99 %';
  return `${Math.round(p * 100)} %`;
}
