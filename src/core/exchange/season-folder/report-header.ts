import { type ProblemsOfFile, quoted } from '../problem.ts';
import type { HeaderColumn } from '../tables/header.ts';
import type { TableSpec } from '../tables/table-spec.ts';

/** Says what is odd about a header; false when a column is missing without which no row says anything. */
export function reportHeader(
  headings: readonly string[],
  columns: readonly HeaderColumn[],
  spec: TableSpec,
  row: number,
  problems: ProblemsOfFile,
): boolean {
  const unknown: string[] = [];
  columns.forEach((entry, index) => {
    const heading = headings[index] ?? '';
    if (entry.kind === 'known') return;
    if (entry.repeats !== null) {
      const message = `the column ${quoted(heading)} stands there twice; expected it once. The first is read, this one is only carried along; rename it or remove it.`;
      problems.add('error', row, heading, message);
    } else if (heading.trim() !== '') unknown.push(heading);
  });
  const first = unknown[0];
  if (first !== undefined) {
    const names = unknown.map(quoted).join(', ');
    const message = `unknown ${unknown.length === 1 ? 'column' : 'columns'} ${names}, kept as found and not read.`;
    problems.add('warning', row, first, message);
  }
  const missing = spec.columns.filter(
    (column) =>
      column.required === true &&
      !columns.some((entry) => entry.kind === 'known' && entry.column === column),
  );
  for (const { name, cell } of missing) {
    const message = `the column ${name} is missing; expected ${cell.expected} in each row. No row of this file was taken. Found: ${headings.map(quoted).join(', ')}.`;
    problems.add('error', row, name, message);
  }
  return missing.length === 0;
}
