import type { LinearProgram } from './linear-program.ts';

/** Readers of the format may cut a line at 255 characters or so; terms are spread over lines. */
const termsOnLine = 8;

/**
 * A program as CPLEX LP text. Every column stands in the objective, with 0 where it gains nothing, so
 * that a reader numbers the columns as they are numbered here.
 */
export function writeLp({ columns, rows }: LinearProgram): string {
  const name = (column: number): string => columns[column]?.name ?? '';
  const lines = ['Maximize', ' obj:'];
  lines.push(...spread(columns.map(({ gain }, index) => term(gain, name(index)))));
  lines.push('Subject To');
  for (const { name: row, terms, sense, right } of rows) {
    lines.push(` ${row}:`);
    lines.push(...spread(terms.map(([column, coefficient]) => term(coefficient, name(column)))));
    lines.push(`  ${sense} ${number(right)}`);
  }
  lines.push('Bounds');
  for (const { name: column, lower, upper } of columns) {
    const top = upper === Infinity ? '+inf' : number(upper);
    lines.push(` ${number(lower)} <= ${column} <= ${top}`);
  }
  const whole = columns.flatMap(({ isWhole, name: column }) => (isWhole ? [column] : []));
  if (whole.length > 0) lines.push('General', ...spread(whole));
  lines.push('End', '');
  return lines.join('\n');
}

function spread(parts: readonly string[]): string[] {
  const lines: string[] = [];
  for (let from = 0; from < parts.length; from += termsOnLine) {
    lines.push(`  ${parts.slice(from, from + termsOnLine).join(' ')}`);
  }
  return lines;
}

function term(coefficient: number, name: string): string {
  return `${coefficient < 0 ? '-' : '+'} ${number(Math.abs(coefficient))} ${name}`;
}

/** JavaScript's shortest text that reads back as the same number; throws on what no file can hold. */
function number(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`An LP text cannot hold ${value}.`);
  return String(value);
}
