import { guideStops } from './guide-stops.ts';

/** How far somebody has come who is shown around the invented season. */
export class GuidedLook {
  #at = $state.raw<number | null>(null);

  /** The stop that is being looked at, from 0; null while nobody is shown around. */
  get at(): number | null {
    return this.#at;
  }

  get isLast(): boolean {
    return this.#at === guideStops.length - 1;
  }

  begin(): void {
    this.#at = 0;
  }

  /** On to the next stop; after the last one it is over. */
  next(): void {
    if (this.#at !== null) this.#at = this.isLast ? null : this.#at + 1;
  }

  back(): void {
    if (this.#at !== null && this.#at > 0) this.#at -= 1;
  }

  end(): void {
    this.#at = null;
  }
}
