/** No event of ours is nested deeper than a few; some readers and writers of JSON break on very deep ones (G). */
export const deepestJson = 64;

/**
 * Why what was read from JSON cannot be written again as it was: lists and objects more than `most`
 * deep in each other, or a number so large that it became infinite. Null: it can. Without recursion,
 * which is what a deep value is made to break.
 */
export function whyBeyondJson(value: unknown, most: number = deepestJson): string | null {
  const open: { readonly part: unknown; readonly depth: number }[] = [{ part: value, depth: 0 }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { part, depth } = next;
    if (part === Infinity || part === -Infinity) return 'it holds a number that is too large';
    if (typeof part !== 'object' || part === null) continue;
    if (depth >= most) return `it is nested more than ${most} deep`;
    for (const inner of Object.values(part)) open.push({ part: inner, depth: depth + 1 });
  }
  return null;
}
