/** Whether two values of JSON say the same, whatever the order of their keys. */
export function saysTheSame(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) {
    if (!Array.isArray(a) || !Array.isArray(b) || a.length !== b.length) return false;
    return a.every((part, index) => saysTheSame(part, b[index]));
  }
  if (!isRecord(a) || !isRecord(b)) return false;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every((key) => Object.hasOwn(b, key) && saysTheSame(a[key], b[key]));
}

function isRecord(value: object): value is Record<string, unknown> {
  return !Array.isArray(value);
}

/**
 * Which of two bodies under one id stays. Two that differ cannot both be right, and every device
 * must keep the same one: the longer text, which leaves nothing out; of equal length the one that
 * sorts first.
 */
export function preferred<Body>(a: Body, b: Body): Body {
  if (saysTheSame(a, b)) return a;
  const [mine, theirs] = [sortedText(a), sortedText(b)];
  if (mine.length !== theirs.length) return mine.length > theirs.length ? a : b;
  return mine <= theirs ? a : b;
}

function sortedText(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}
