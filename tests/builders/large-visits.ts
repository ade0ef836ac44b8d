/**
 * The bytes of a visits.csv of at least so many bytes, about nest W-1, with the same note on every
 * row; each thousandth row is about a nest that nobody knows.
 */
export function largeVisits(
  least_bytes: number,
  note: string,
): { readonly bytes: Uint8Array; readonly rows: number } {
  const lines = ['nest,time,kind,observer,experience,surface,sound,note\n'];
  let length = 0;
  let rows = 0;
  while (length < least_bytes) {
    rows++;
    const minute = String(rows % 60).padStart(2, '0');
    const day = String(1 + (rows % 28)).padStart(2, '0');
    const nest = rows % 1000 === 0 ? 'W-9' : 'W-1';
    const line = `${nest},2026-07-${day}T21:${minute}-04:00,evening,Ada,trained,dip,quiet,"${note}"\n`;
    lines.push(line);
    length += line.length;
  }
  return { bytes: new TextEncoder().encode(lines.join('')), rows };
}
