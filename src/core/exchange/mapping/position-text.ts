const SIDED = /^(.*?)\s*([NSEWO])\.?$/i;
const SIDED_BEFORE = /^([NSEWO])\s*(.*)$/i;
const SEXAGESIMAL =
  /^([+-]?\d{1,3}(?:[.,]\d+)?)\s*[°º d]\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*['’′m]?\s*)?(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:"|”|″|''|s)?)?\s*$/i;

/**
 * Degrees north or east, with a decimal point, of a position written with minutes, seconds or a
 * side: `27° 15' 30" N`, `80.3 W`, `80,3 O`. Null when it is not written so.
 */
export function plainDegrees(text: string): string | null {
  const trimmed = text.trim();
  const sided = SIDED.exec(trimmed);
  const before = sided === null ? SIDED_BEFORE.exec(trimmed) : null;
  const side = (sided?.[2] ?? before?.[1] ?? '').toUpperCase();
  const rest = (sided?.[1] ?? before?.[2] ?? trimmed).trim();
  const plain = /^[+-]?\d{1,3}([.,]\d+)?$/.test(rest) ? [rest, rest] : SEXAGESIMAL.exec(rest);
  if (plain === null || (side === '' && !/[°º'’′]/.test(trimmed))) return null;
  const [degrees, minutes, seconds] = [plain[1], plain[2], plain[3]].map((part) =>
    Number((part ?? '0').replace(',', '.')),
  ) as [number, number, number];
  if (minutes >= 60 || seconds >= 60) return null;
  const size = Math.abs(degrees) + minutes / 60 + seconds / 3600;
  const minus = (plain[1] ?? '').startsWith('-') || /[SWO]/.test(side);
  return String((Math.round(size * 1e7) / 1e7) * (minus ? -1 : 1) + 0);
}
