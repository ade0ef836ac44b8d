import { expect, test, vi } from 'vitest';
import { ForecasterApart, type ForecastPort } from '../../../src/app/wiring/forecaster-apart.ts';
import { replaySeason } from '../../../src/app/workers/backtest-replay.ts';
import type { ReplayTold } from '../../../src/app/workers/backtest-messages.ts';
import { ForecastDesk } from '../../../src/app/workers/forecast-desk.ts';
import type { Asked, Reply } from '../../../src/app/workers/forecast-messages.ts';
import { backtest } from '../../../src/core/forecast/backtest.ts';
import { EveningMemory } from '../../../src/core/forecast/evening-memory.ts';
import { LearningMemory } from '../../../src/core/forecast/learning-memory.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { SeasonBuilder, eveningOf, zone } from '../../builders/season.ts';

/** Nests that come up after `nights`, told by their tracks; laid from 1 June of a year on. */
function season(year: number, nights: number, until: number): SeasonBuilder {
  const made = new SeasonBuilder().programme({ time_zone: zone });
  for (let n = 1; n <= 8; n++) {
    made.nest(`W-${n}`, { lay_night: `${year}-06-0${n}` });
    const boil = new Date(Date.UTC(year, 5, n + nights)).toISOString().slice(0, 10);
    made.visit(`W-${n}`, `${year}-07-10`, { surface: 'smooth' });
    if (n <= until) made.visit(`W-${n}`, boil, { kind: 'morning', tracks: 50 });
  }
  return made;
}

const earlier = season(2025, 64, 8).events;
const finished = [{ events: earlier, zone }];
const record = season(2026, 63, 2).record();
const evening = eveningOf('2026-08-05', '21:30');

/** Answers at once from a desk, and keeps what was asked. */
class NearPort implements ForecastPort {
  readonly asked: Asked[] = [];
  readonly #desk = new ForecastDesk();
  #replied: (reply: Reply) => void = () => undefined;

  send(asked: Asked): void {
    const copy = structuredClone(asked);
    this.asked.push(copy);
    setTimeout(() => {
      this.#replied(structuredClone(this.#desk.answer(copy)));
    }, 0);
  }

  listen(replied: (reply: Reply) => void): void {
    this.#replied = replied;
  }

  close(): void {
    this.#replied = () => undefined;
  }
}

test('finished seasons teach the running one as the command line’s archive does', async () => {
  const port = new NearPort();
  const read = vi.fn(() => Promise.resolve(finished));
  const forecaster = new ForecasterApart(port, () => new NearPort(), read);
  const quick = await forecaster.forecast(record, evening);
  expect(forecaster.archive).toBeNull();
  expect(await forecaster.improve(record, evening)).toBe(true);
  expect(forecaster.archive).toMatchObject({ seasons: 1, nests: 8 });
  const memory = new EveningMemory([fold(earlier, zone)]);
  const taught = await forecaster.forecast(record, evening);
  expect(taught).toEqual(forecastSeason(record, evening, memory.on(record, evening)));
  expect(taught.level.mean).not.toBe(quick.level.mean);
  expect(await forecaster.improve(record, evening)).toBe(false);
  expect(read).toHaveBeenCalledTimes(1);
  const learned = await forecaster.learned(record, evening);
  expect(learned.archive).toMatchObject({ seasons: 1, nests: 8 });
  expect(learned.learnedTables).toEqual(memory.cues(record, evening).learnedTables);
});

test('finished seasons that cannot be read are said, and asked for again', async () => {
  let isReadable = false;
  const read = () =>
    isReadable ? Promise.resolve(finished) : Promise.reject(new Error('The store is blocked.'));
  const forecaster = new ForecasterApart(new NearPort(), () => new NearPort(), read);
  await expect(forecaster.improve(record, evening)).rejects.toThrow('The store is blocked.');
  isReadable = true;
  expect(await forecaster.improve(record, evening)).toBe(true);
  expect(forecaster.archive?.seasons).toBe(1);
});

test('a replay gives what the command line gives, and tells how far it has come', () => {
  const told: ReplayTold[] = [];
  const whole = season(2026, 63, 8);
  const asked = { events: whole.events, zone, finished };
  const replayed = replaySeason(asked, (word) => told.push(word));
  const before = [fold(earlier, zone)];
  const { archive } = new EveningMemory(before);
  const first = new ForecastMemory({ archive });
  const learning = new LearningMemory(undefined, before, undefined, first);
  const wholeRecord = whole.record();
  const wanted = backtest(wholeRecord, null, (moment) => learning.at(wholeRecord, moment));
  expect(replayed).toEqual(wanted);
  expect(replayed.boils).toBe(8);
  expect(told).toHaveLength(replayed.nights);
  expect(told[0]).toEqual({ kind: 'evening', done: 0, of: replayed.nights });
  expect(told.at(-1)).toEqual({
    kind: 'evening',
    done: replayed.nights - 1,
    of: replayed.nights,
  });
});

test('a season in which nothing boiled is replayed to nothing, without an error', () => {
  const { events } = season(2026, 63, 0);
  const none = replaySeason({ events, zone, finished: [] }, () => undefined);
  expect(none).toMatchObject({ nights: 0, boils: 0, reliability: [] });
});
