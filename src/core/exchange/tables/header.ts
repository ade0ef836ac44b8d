import { unguarded } from '../csv/guard.ts';
import type { Column, TableSpec } from './table-spec.ts';

/** What one column of a file is: one of ours, or one that is only carried along under its key. */
export type HeaderColumn =
  | { readonly kind: 'known'; readonly column: Column }
  | {
      readonly kind: 'extra';
      readonly key: string;
      /** Whether it repeats the name of a known column that stands further left. */
      readonly repeats: Column | null;
    };

/** The plain form of a heading: case, spaces and hyphens do not matter. */
export function plainHeading(heading: string): string {
  return unguarded(heading)
    .trim()
    .toLowerCase()
    .replace(/[\s\-_]+/g, '_');
}

/** What each heading of a file stands for, in the order of the file. */
export function readHeader(headings: readonly string[], spec: TableSpec): readonly HeaderColumn[] {
  const met = new Set<string>();
  const times = new Map<string, number>();
  const keys = new Set<string>();
  return headings.map((heading) => {
    const column = spec.columns.find(({ name }) => name === plainHeading(heading));
    if (column !== undefined && !met.has(column.name)) {
      met.add(column.name);
      return { kind: 'known', column };
    }
    let time = (times.get(heading) ?? (column === undefined ? 0 : 1)) + 1;
    // `__proto__` is no key that a plain record could hold; `a#2` may be a heading of its own.
    let key = time === 1 && heading !== '__proto__' ? heading : `${heading}#${time}`;
    for (; keys.has(key); key = `${heading}#${time}`) time++;
    times.set(heading, time);
    keys.add(key);
    return { kind: 'extra', key, repeats: column ?? null };
  });
}
