/** One number for every day of a stretch of days, without gaps. */
export class DailyValues {
  readonly first: number;
  readonly last: number;
  readonly #values: Float64Array;

  /** `value(day)` for each day `first`..`last` (days since 1970-01-01). */
  constructor(first: number, last: number, value: (day: number) => number) {
    this.first = first;
    this.last = last;
    this.#values = Float64Array.from({ length: last - first + 1 }, (_, at) => value(first + at));
  }

  /** Whether the day lies in the stretch. */
  has(day: number): boolean {
    return day >= this.first && day <= this.last;
  }

  /** Throws a RangeError outside the stretch. */
  at(day: number): number {
    const value = this.#values[day - this.first];
    if (value === undefined) {
      throw new RangeError(`Day ${day} lies outside the days ${this.first}..${this.last}.`);
    }
    return value;
  }

  set(day: number, value: number): void {
    if (!this.has(day)) throw new RangeError(`Day ${day} lies outside these days.`);
    this.#values[day - this.first] = value;
  }
}
