import { describe, expect, test } from 'vitest';
import { ForecasterApart, type ForecastPort } from '../../../src/app/wiring/forecaster-apart.ts';
import { ForecastDesk } from '../../../src/app/workers/forecast-desk.ts';
import type { Asked, Reply } from '../../../src/app/workers/forecast-messages.ts';
import type { SeasonEvent } from '../../../src/core/domain/event.ts';
import { EveningMemory } from '../../../src/core/forecast/evening-memory.ts';
import { restOfNight } from '../../../src/core/forecast/rest-of-night.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { whyTonight } from '../../../src/core/forecast/why.ts';
import { checkedText } from '../../../src/core/log/checked-text.ts';
import { fold, foldOn } from '../../../src/core/log/fold.ts';
import { SeasonBuilder, eveningOf, zone } from '../../builders/season.ts';
import { nestId } from '../note/scratch-season.ts';

/** Events as a log tells them ahead. */
const plainly = (events: readonly SeasonEvent[]): Uint8Array<ArrayBuffer> =>
  new TextEncoder().encode(checkedText(events));

/** A port to a desk that, as a worker does, gets copies and answers later. */
class CopyingPort implements ForecastPort {
  readonly asked: Asked[] = [];
  readonly #desk = new ForecastDesk();
  #replied: (reply: Reply) => void = () => undefined;
  break: () => void = () => undefined;
  isDead = false;

  send(asked: Asked): void {
    const copy = structuredClone(asked);
    this.asked.push(copy);
    if (this.isDead) return;
    setTimeout(() => {
      this.#replied(structuredClone(this.#desk.answer(copy)));
    }, 0);
  }

  listen(replied: (reply: Reply) => void, broken: () => void): void {
    this.#replied = replied;
    this.break = broken;
  }

  close(): void {
    this.isDead = true;
  }
}

function open(port = new CopyingPort(), instead = new CopyingPort()) {
  return { port, instead, forecaster: new ForecasterApart(port, () => instead) };
}

/** Nests of one beach with a few weeks of evening notes and one boil. */
function season(): SeasonBuilder {
  const made = new SeasonBuilder();
  for (let n = 1; n <= 5; n++) {
    made.nest(`W-${n}`, { lay_night: `2026-06-0${n}` });
    for (let day = 20; day < 29; day++) {
      const surface = day < 24 + (n % 3) ? 'smooth' : 'dip';
      made.visit(`W-${n}`, `2026-07-${day}`, { surface, sound: 'quiet' });
    }
  }
  return made.visit('W-1', '2026-07-28', { kind: 'morning', tracks: 60 });
}

const evening = eveningOf('2026-07-29', '21:30');
const record = fold(season().events, zone);

test('the worker’s odds are the core’s, joined with the nests of the page’s own record', async () => {
  const { forecaster } = open();
  const { plain } = new EveningMemory();
  const forecast = await forecaster.forecast(record, evening);
  expect(forecast).toEqual(forecastSeason(record, evening, plain));
  expect(forecast.out.map((out) => out.record)).toEqual([record.nests.get(nestId('W-1'))]);
  const [first] = forecast.nests;
  expect(first?.record).toBe(record.nests.get(first!.record.nest.id));
  const id = first!.record.nest.id;
  expect(await forecaster.why(record, evening, id)).toEqual(whyTonight(record, evening, id, plain));
  const rest = restOfNight(record, evening, id, plain);
  expect(await forecaster.restOfNight(record, evening, id)).toEqual(rest);
});

test('cues are learned once an evening, and its notes use what was learned at once', async () => {
  const { forecaster } = open();
  await forecaster.forecast(record, evening);
  expect(await forecaster.improve(record, evening)).toBe(true);
  expect(await forecaster.improve(record, evening)).toBe(false);
  const learned = new EveningMemory().on(record, evening);
  const better = await forecaster.forecast(record, evening);
  expect(better).toEqual(forecastSeason(record, evening, learned));
  const noted = season().visit('W-2', '2026-07-29', { surface: 'caved' });
  const after = foldOn(record, noted.events, zone);
  const moved = await forecaster.forecast(after, evening);
  expect(moved).toEqual(forecastSeason(after, evening, learned));
  expect(await forecaster.improve(after, evening)).toBe(false);
});

describe('of the events', () => {
  test('only new ones are sent', async () => {
    const { port, forecaster } = open();
    await forecaster.forecast(record, evening);
    await forecaster.why(record, evening, nestId('W-2'));
    const noted = season().visit('W-2', '2026-07-29', { surface: 'caved' });
    await forecaster.forecast(foldOn(record, noted.events, zone), evening);
    const sent = port.asked.map(({ season: { added } }) => added.length);
    expect(sent).toEqual([record.events.size, 0, 1]);
  });

  test('what was given ahead, while the record was being made, is not sent again', async () => {
    const { port, forecaster } = open();
    forecaster.begin([], [...record.events.values()], 'UTC');
    expect(await forecaster.forecast(record, evening)).toEqual(forecastSeason(record, evening));
    expect(port.asked.map(({ season: { added } }) => added.length)).toEqual([
      record.events.size,
      0,
    ]);
  });

  test('what was given ahead as texts is not sent again either', async () => {
    const { port, forecaster } = open();
    const events = [...record.events.values()];
    const [told, more] = [events.slice(0, 20), events.slice(20)];
    forecaster.beginAhead([plainly(told.slice(0, 15)), plainly(told.slice(15))], zone);
    forecaster.begin(told, more, zone);
    expect(await forecaster.forecast(record, evening)).toEqual(forecastSeason(record, evening));
    expect(port.asked.map(({ season: { added } }) => added.length)).toEqual([0, more.length, 0]);
  });

  test('a text that is damaged on the way is told again with the next question', async () => {
    const { forecaster } = open();
    const events = [...record.events.values()];
    forecaster.beginAhead([plainly(events).slice(1)], zone);
    forecaster.begin(events, [], zone);
    expect(await forecaster.forecast(record, evening)).toEqual(forecastSeason(record, evening));
  });

  test('texts that went to a worker that broke are told to the one after it as events', async () => {
    const { port, instead, forecaster } = open();
    const events = [...record.events.values()];
    forecaster.beginAhead([plainly(events)], zone);
    port.break();
    forecaster.begin(events, [], zone);
    expect(await forecaster.forecast(record, evening)).toEqual(forecastSeason(record, evening));
    expect(instead.asked.map(({ season: { added } }) => added.length)).toEqual([events.length, 0]);
  });

  test('what was given ahead and stands in the record no more is taken back', async () => {
    const { forecaster } = open();
    forecaster.begin([], season().visit('W-2', '2026-07-29', { surface: 'caved' }).events, zone);
    expect(await forecaster.forecast(record, evening)).toEqual(forecastSeason(record, evening));
  });

  test('what was given ahead to a worker that broke is told to the one after it', async () => {
    const { port, instead, forecaster } = open();
    forecaster.begin([], [...record.events.values()], zone);
    port.break();
    expect(await forecaster.forecast(record, evening)).toEqual(forecastSeason(record, evening));
    expect(instead.asked).toHaveLength(1);
  });

  test('all are sent anew when some that were sent stand no more, as an evening earlier', async () => {
    const { port, forecaster } = open();
    await forecaster.forecast(record, evening);
    const fewer = fold(season().events.slice(0, 20), zone);
    const forecast = await forecaster.forecast(fewer, evening);
    expect(port.asked[1]?.season.key).not.toBe(port.asked[0]?.season.key);
    expect(forecast).toEqual(forecastSeason(fewer, evening));
  });
});

test('a failure of the calculation rejects with what was said, and the next question is answered', async () => {
  const { forecaster } = open();
  const nowhere = { ...record, zone: 'Nowhere/Land' };
  const failing = forecaster.improve(nowhere, evening);
  await expect(failing).rejects.toThrow(/Nowhere\/Land/i);
  expect((await forecaster.forecast(record, evening)).nests).toHaveLength(4);
});

test('when the worker breaks, what was asked and what is asked later is answered instead', async () => {
  const { port, instead, forecaster } = open();
  port.isDead = true;
  const waiting = forecaster.forecast(record, evening);
  port.break();
  expect((await waiting).nests).toHaveLength(4);
  expect((await forecaster.forecast(record, evening)).nests).toHaveLength(4);
  expect(instead.asked.map(({ season: { added } }) => added.length)).toEqual([
    record.events.size,
    0,
  ]);
});
