/** No event of ours is nested deeper than a few; some readers and writers of JSON break on very deep ones (G). */
export const deepestJson = 64;

/** Whether lists and objects lie more than `most` deep in each other. Without recursion, which is what a deep value is made to break. */
export function isDeeperThan(value: unknown, most: number): boolean {
  const open: { readonly part: unknown; readonly depth: number }[] = [{ part: value, depth: 0 }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { part, depth } = next;
    if (typeof part !== 'object' || part === null) continue;
    if (depth >= most) return true;
    for (const inner of Object.values(part)) open.push({ part: inner, depth: depth + 1 });
  }
  return false;
}
