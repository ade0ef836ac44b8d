import { expect, test } from 'vitest';
import { OddsReplay, type StartReplay } from '../../../src/app/state/odds-replay.svelte.ts';
import type { ReplayAsked, ReplayTold } from '../../../src/app/workers/backtest-messages.ts';
import { backtest } from '../../../src/core/forecast/backtest.ts';
import { SeasonBuilder, zone } from '../../builders/season.ts';

const season = {};
const asked: ReplayAsked = { events: [], zone, finished: [] };
const result = backtest(new SeasonBuilder().record());

function opened() {
  const stopped: string[] = [];
  let tell: (word: ReplayTold) => void = () => undefined;
  const start: StartReplay = (_, told) => {
    tell = told;
    return () => {
      stopped.push('stopped');
    };
  };
  const replay = new OddsReplay(start);
  return { replay, stopped, tell: (word: ReplayTold) => tell(word) };
}

const gather = () => Promise.resolve(asked);

test('a replay tells how far it is, then what came of it, and its worker is let go', async () => {
  const { replay, stopped, tell } = opened();
  expect(replay.stageOf(season)).toEqual({ stage: 'not begun' });
  await replay.begin(season, gather);
  tell({ kind: 'evening', done: 3, of: 12 });
  expect(replay.stageOf(season)).toEqual({ stage: 'under way', share: 0.25 });
  tell({ kind: 'done', backtest: result });
  expect(replay.stageOf(season)).toEqual({ stage: 'done', backtest: result, events: 0 });
  expect(stopped).toEqual(['stopped']);
});

test('a cancelled replay is stopped, and what it still says is not heard', async () => {
  const { replay, stopped, tell } = opened();
  await replay.begin(season, gather);
  replay.cancel();
  expect(stopped).toEqual(['stopped']);
  tell({ kind: 'done', backtest: result });
  expect(replay.stageOf(season)).toEqual({ stage: 'not begun' });
});

test('one that is cancelled while the season is brought together is never started', async () => {
  const { replay, tell } = opened();
  const beginning = replay.begin(season, gather);
  replay.cancel();
  await beginning;
  tell({ kind: 'done', backtest: result });
  expect(replay.stageOf(season)).toEqual({ stage: 'not begun' });
});

test('of another season nothing is shown', async () => {
  const { replay, tell } = opened();
  await replay.begin(season, gather);
  tell({ kind: 'done', backtest: result });
  expect(replay.stageOf({})).toEqual({ stage: 'not begun' });
});

test('a season that cannot be brought together says why', async () => {
  const { replay } = opened();
  await replay.begin(season, () => Promise.reject(new Error('The store is blocked.')));
  expect(replay.stageOf(season)).toEqual({ stage: 'failed', message: 'The store is blocked.' });
});
