import type { SeasonEvent } from '../../core/domain/event.ts';
import type { Backtest } from '../../core/forecast/backtest.ts';
import type { FinishedEvents } from './finished-events.ts';

/** From the page: a season to replay, with the finished ones that come before it. */
export interface ReplayAsked {
  readonly events: readonly SeasonEvent[];
  readonly zone: string;
  readonly finished: readonly FinishedEvents[];
}

/** From the worker: how far it has come, and at last what came of it. */
export type ReplayTold =
  | { readonly kind: 'evening'; readonly done: number; readonly of: number }
  | { readonly kind: 'done'; readonly backtest: Backtest }
  | { readonly kind: 'failed'; readonly message: string };
