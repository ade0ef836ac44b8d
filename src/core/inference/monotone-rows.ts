/**
 * Rows of chances of ordered states, made to fall in line: no row puts more on the high states than
 * the one before it. Where two do, they are pooled by weight, each level by itself; pooling keeps
 * the levels in order, so that every row stays a distribution. Rows that are in line stay as they
 * are. Source: pool-adjacent-violators, Ayer et al. 1955, Ann. Math. Statist. 26:641-647 (from memory).
 */
export function monotoneRows(
  rows: readonly (readonly number[])[],
  weights: readonly number[],
): readonly (readonly number[])[] {
  const states = rows[0]?.length ?? 0;
  let changed = false;
  /** Chance of each state or higher, by row. */
  const above: number[][] = [];
  for (let state = 1; state < states; state++) {
    const chance = rows.map((row) => row.slice(state).reduce((sum, p) => sum + p, 0));
    const { values, pooled } = falling(chance, weights);
    changed ||= pooled;
    above.push(values);
  }
  if (!changed) return rows;
  return rows.map((_, index) =>
    Array.from({ length: states }, (__, state) => {
      const from = state === 0 ? 1 : above[state - 1]![index]!;
      return Math.max(0, from - (above[state]?.[index] ?? 0));
    }),
  );
}

/** Values pooled until none is greater than the one before it. */
function falling(values: readonly number[], weights: readonly number[]) {
  const pools: { value: number; weight: number; count: number }[] = [];
  let pooled = false;
  values.forEach((value, index) => {
    let pool = { value, weight: weights[index]!, count: 1 };
    for (
      let before = pools.at(-1);
      before !== undefined && before.value < pool.value - 1e-12;
      before = pools.at(-1)
    ) {
      pools.pop();
      pooled = true;
      const weight = before.weight + pool.weight;
      const mean = (before.value * before.weight + pool.value * pool.weight) / weight;
      pool = { value: mean, weight, count: before.count + pool.count };
    }
    pools.push(pool);
  });
  return {
    values: pools.flatMap(({ value, count }) => Array.from({ length: count }, () => value)),
    pooled,
  };
}
