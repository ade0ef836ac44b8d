import type { Backtest } from '../../core/forecast/backtest.ts';
import type { ReplayAsked, ReplayTold } from '../workers/backtest-messages.ts';

/** Starts a replay apart from the page; gives the way to stop it. Nothing is told after that. */
export type StartReplay = (asked: ReplayAsked, told: (word: ReplayTold) => void) => () => void;

export type ReplayStage =
  | { readonly stage: 'not begun' }
  | { readonly stage: 'under way'; readonly share: number }
  /** `events`: how many entries the season had then; more have come when it has more now. */
  | { readonly stage: 'done'; readonly backtest: Backtest; readonly events: number }
  | { readonly stage: 'failed'; readonly message: string };

/** How good the odds of a season were, once somebody has asked for it; one at a time. */
export class OddsReplay {
  readonly #start: StartReplay;
  #stage = $state.raw<ReplayStage>({ stage: 'not begun' });
  #stop: () => void = () => undefined;
  #of: object | null = $state.raw(null);

  constructor(start: StartReplay) {
    this.#start = start;
  }

  /** How far the replay of a season has come; one of another season is none of this. */
  stageOf(season: object): ReplayStage {
    return this.#of === season ? this.#stage : { stage: 'not begun' };
  }

  /** Begins anew with a season; `gather` brings it together first, which can fail. */
  async begin(season: object, gather: () => Promise<ReplayAsked>): Promise<void> {
    this.cancel();
    this.#of = season;
    let wanted = true;
    let stop: () => void = () => undefined;
    this.#stop = () => {
      wanted = false;
      stop();
    };
    this.#stage = { stage: 'under way', share: 0 };
    try {
      const asked = await gather();
      // Cancelled while it was brought together.
      // eslint-disable-next-line @typescript-eslint/no-unnecessary-condition -- `#stop` changes it
      if (!wanted) return;
      stop = this.#start(asked, (word) => {
        if (wanted) this.#take(word, asked.events.length);
      });
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      // eslint-disable-next-line @typescript-eslint/no-unnecessary-condition -- `#stop` changes it
      if (wanted) this.#stage = { stage: 'failed', message };
    }
  }

  cancel(): void {
    this.#stop();
    if (this.#stage.stage === 'under way') this.#stage = { stage: 'not begun' };
  }

  #take(word: ReplayTold, events: number): void {
    switch (word.kind) {
      case 'evening':
        this.#stage = { stage: 'under way', share: word.done / word.of };
        return;
      case 'done':
        this.#stage = { stage: 'done', backtest: word.backtest, events };
        break;
      case 'failed':
        this.#stage = { stage: 'failed', message: word.message };
        break;
    }
    this.#stop();
  }
}
