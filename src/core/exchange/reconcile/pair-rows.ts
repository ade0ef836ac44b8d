import type { Fact } from '../../log/season-record.ts';
import { meaning } from '../cells/cell.ts';
import { type StandingRow, valuesOf } from '../season-folder/standing-row.ts';
import type { RowValues, TableSpec } from '../tables/table-spec.ts';

/** A row of a file and what stands in the record for it; null when nothing does. */
export interface Pair {
  readonly theirs: Fact;
  readonly ours: StandingRow | null;
}

/**
 * Pairs the rows of a file with what stands: first by event id (the very row was imported before),
 * then with what says just the same, then, in order, with what has the same key (a nest's name; a
 * visit's nest, time, observer and kind).
 */
export function pairRows(
  spec: TableSpec,
  facts: readonly Fact[],
  standing: readonly StandingRow[],
): readonly Pair[] {
  const free = new Set(standing);
  const byId = new Map(standing.map((row) => [String(row.standing.original.id), row]));
  const pairs = new Map<Fact, StandingRow>();
  const all = spec.columns.map(({ name }) => name);
  const match = (find: (fact: Fact) => StandingRow | undefined): void => {
    for (const fact of facts) {
      if (pairs.has(fact)) continue;
      const row = find(fact);
      if (row === undefined || !free.delete(row)) continue;
      pairs.set(fact, row);
    }
  };
  match((fact) => byId.get(fact.id));
  match(finder(spec, all, free));
  match(finder(spec, spec.knownBy, free));
  return facts.map((theirs) => ({ theirs, ours: pairs.get(theirs) ?? null }));
}

/** Finds what is still free and agrees with a fact in some columns, each thing once. */
function finder(
  spec: TableSpec,
  names: readonly string[],
  free: ReadonlySet<StandingRow>,
): (fact: Fact) => StandingRow | undefined {
  const keyOf = (values: RowValues): string =>
    JSON.stringify(
      spec.columns
        .filter(({ name }) => names.includes(name))
        .map(({ name, cell }) => meaning(values[name], cell.isTime === true)),
    );
  const byKey = new Map<string, StandingRow[]>();
  for (const row of free) {
    const key = keyOf(row.values);
    const list = byKey.get(key);
    if (list === undefined) byKey.set(key, [row]);
    else list.push(row);
  }
  return (fact) => byKey.get(keyOf(valuesOf(fact)))?.shift();
}
