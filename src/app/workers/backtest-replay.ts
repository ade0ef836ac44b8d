import { type Backtest, backtest, fatesIn } from '../../core/forecast/backtest.ts';
import { EveningMemory } from '../../core/forecast/evening-memory.ts';
import { LearningMemory } from '../../core/forecast/learning-memory.ts';
import { ForecastMemory } from '../../core/forecast/season-memory.ts';
import { fold } from '../../core/log/fold.ts';
import type { ReplayAsked, ReplayTold } from './backtest-messages.ts';
import { finishedRecords } from './finished-events.ts';

/**
 * Replays a season with only what was known on each evening, learning from it weekly and from the
 * finished seasons, as `firstdark backtest --archive` does; tells of every evening.
 */
export function replaySeason(asked: ReplayAsked, told: (word: ReplayTold) => void): Backtest {
  const record = fold(asked.events, asked.zone);
  const finished = finishedRecords(asked.finished);
  const { archive } = new EveningMemory(finished);
  const first = new ForecastMemory({ archive });
  const learning = new LearningMemory(undefined, finished, undefined, first);
  const fates = fatesIn(record, new ForecastMemory());
  const boils = [...fates.values()].filter((night) => night !== null);
  let firstEvening: number | null = null;
  return backtest(record, fates, (moment) => {
    firstEvening ??= moment.night;
    const of = Math.max(...boils) - firstEvening + 1;
    told({ kind: 'evening', done: moment.night - firstEvening, of });
    return learning.at(record, moment);
  });
}
