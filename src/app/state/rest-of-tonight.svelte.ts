import type { NestId } from '../../core/domain/nest.ts';
import type { RestOfNight } from '../../core/forecast/rest-of-night.ts';
import type { SeasonState } from './season-state.svelte.ts';

/**
 * "Stay or go" at one nest: the chance for the rest of tonight, worked out anew with every minute and
 * every note. The last answer stays until the next is there. Make it while a component starts.
 */
export class RestOfTonight {
  #left = $state.raw<RestOfNight | null>(null);
  #hasFailed = $state.raw(false);

  constructor(season: SeasonState, nest: () => NestId) {
    $effect(() => {
      void season.forecast;
      void season.moment;
      let isStale = false;
      season.restOfNight(nest()).then(
        (left) => {
          if (isStale) return;
          this.#left = left;
          this.#hasFailed = false;
        },
        () => {
          this.#hasFailed = !isStale;
        },
      );
      return () => {
        isStale = true;
      };
    });
  }

  /** Null until the first answer, and for a nest that is not on record. */
  get left(): RestOfNight | null {
    return this.#left;
  }

  get hasFailed(): boolean {
    return this.#hasFailed;
  }
}
