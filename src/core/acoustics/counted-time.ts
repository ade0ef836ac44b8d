import type { Stretch } from './footsteps.ts';

/** Time is kept in cells this long. */
const cell_s = 0.25;

/** Why a stretch does not count. */
export type Excluded = 'walked' | 'rained';

/** What the time that counts held. */
export interface Counted {
  readonly usable_s: number;
  /** Share of it with scratching or a rush; null when nothing counts. */
  readonly active_share: number | null;
  readonly rush_share: number;
}

interface Cell {
  excluded: Excluded | null;
  active: number;
  isRush: boolean;
}

/** Which stretches of a listening count, and what was heard in them. */
export class CountedTime {
  readonly #cells: Cell[] = [];

  /** So much has been heard. */
  growTo(heard_s: number): void {
    const cells = Math.ceil(heard_s / cell_s);
    while (this.#cells.length < cells) {
      this.#cells.push({ excluded: null, active: 0, isRush: false });
    }
  }

  /** A stretch that does not count, though part of it may lie ahead; a walk outweighs rain. */
  exclude({ from_s, to_s }: Stretch, why: Excluded): void {
    this.growTo((cellOf(to_s) + 1) * cell_s);
    for (const cell of this.#cells.slice(Math.max(0, cellOf(from_s)), cellOf(to_s) + 1)) {
      if (cell.excluded !== 'walked') cell.excluded = why;
    }
  }

  /** A scratch sounds from a moment on. */
  scratchAt(at_s: number, length_s: number): void {
    this.growTo(at_s + length_s);
    for (let from_s = at_s, left_s = length_s; left_s > 0;) {
      const at = cellOf(from_s);
      const part_s = Math.max(1e-6, Math.min(left_s, (at + 1) * cell_s - from_s));
      const cell = this.#cells[at];
      if (cell !== undefined) cell.active = Math.min(1, cell.active + part_s / cell_s);
      from_s += part_s;
      left_s -= part_s;
    }
  }

  /** A rush sounds all through a stretch. */
  rush({ from_s, to_s }: Stretch): void {
    this.growTo(to_s);
    for (const cell of this.#cells.slice(Math.max(0, cellOf(from_s)), cellOf(to_s))) {
      cell.isRush = true;
    }
  }

  doesCount(at_s: number): boolean {
    return (this.#cells[cellOf(at_s)]?.excluded ?? null) === null;
  }

  /** Share of the time that does not count for this reason. */
  share(why: Excluded): number {
    const of = this.#cells.filter(({ excluded }) => excluded === why).length;
    return this.#cells.length === 0 ? 0 : of / this.#cells.length;
  }

  /** What counted up to a moment. */
  upTo(to_s: number): Counted {
    const until = to_s === Infinity ? this.#cells.length : Math.max(0, cellOf(to_s) + 1);
    const counted = this.#cells.slice(0, until).filter(({ excluded }) => excluded === null);
    const of = counted.length;
    const rushing = counted.filter(({ isRush }) => isRush).length;
    const active = counted.reduce((sum, cell) => sum + (cell.isRush ? 1 : cell.active), 0);
    return {
      usable_s: of * cell_s,
      active_share: of === 0 ? null : active / of,
      rush_share: of === 0 ? 0 : rushing / of,
    };
  }
}

const cellOf = (at_s: number): number => Math.floor(at_s / cell_s);
