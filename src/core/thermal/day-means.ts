/** What was measured, by day (days since 1970-01-01); a day that is not there was not measured. */
export type Measured = ReadonlyMap<number, number>;

/** Gathers values by day; several of one day give their mean. */
export class DayMeans {
  readonly #sums = new Map<number, { sum: number; count: number }>();

  add(day: number, value: number): void {
    const known = this.#sums.get(day);
    if (known === undefined) this.#sums.set(day, { sum: value, count: 1 });
    else {
      known.sum += value;
      known.count++;
    }
  }

  /** In the order of days. */
  means(): Measured {
    const days = [...this.#sums].sort(([a], [b]) => a - b);
    return new Map(days.map(([day, { sum, count }]) => [day, sum / count]));
  }
}
