// npm run bench -- refresh: how long the whole season takes from its folded record to the ranking,
// and after one more note, for 120, 1,000 and 10,000 nests.
import type { SeasonEvent } from '../src/core/domain/event.ts';
import { atWallClock, asNight } from '../src/core/domain/night.ts';
import type { InstantText } from '../src/core/domain/instant.ts';
import { ForecastMemory } from '../src/core/forecast/season-memory.ts';
import { forecastSeason } from '../src/core/forecast/tonight.ts';
import { eventIdOfRow } from '../src/core/log/event-id.ts';
import { fold, foldOn } from '../src/core/log/fold.ts';
import type { SeasonRecord } from '../src/core/log/season-record.ts';
import { measure, told } from './measure.ts';
import { benchSeason } from './seasons.ts';

export async function run(): Promise<void> {
  for (const nests of [120, 1_000, 10_000]) {
    const { record } = benchSeason({ nests, seed: 4 });
    const night = asNight(middleNight(record));
    const moment = { night, at_ms: atWallClock(night, 20 * 60, record.zone) };
    const notes = [...record.events.values()].filter((event) => event.kind === 'visit-noted');
    console.log(`\n${nests} nests, ${notes.length} notes`);
    const repeats = nests > 5_000 ? 3 : 7;
    const options = { repeats, warmUps: 1 };
    console.log(
      told('fold the record', await measure(() => fold(record.events.values()), options)),
    );
    console.log(
      told('odds from nothing', await measure(() => forecastSeason(record, moment), options)),
    );
    const memory = new ForecastMemory();
    forecastSeason(record, moment, memory);
    let season = record;
    let count = 0;
    const oneNote = (): void => {
      season = foldOn(season, [noteOn(notes, count++, moment.at_ms)]);
      forecastSeason(season, moment, memory);
    };
    console.log(told('one more note, all odds again', await measure(oneNote, options)));
  }
}

/** A night on which a good part of the season is due. */
function middleNight(record: SeasonRecord): number {
  const laid = [...record.nests.values()].flatMap(({ nest }) => nest.layNight ?? []);
  return laid.sort((a, b) => a - b)[Math.floor(laid.length / 2)]! + 56;
}

function noteOn(notes: readonly SeasonEvent[], count: number, at_ms: number): SeasonEvent {
  const like = notes[(count * 997) % notes.length];
  if (like?.kind !== 'visit-noted') throw new Error('The season has no notes.');
  const at = new Date(at_ms - 60_000).toISOString() as InstantText;
  return {
    ...like,
    id: eventIdOfRow(at_ms, `bench ${count}`),
    at,
    written: at,
    details: { kind: 'evening', surface: 'dip', sound: 'occasional' },
  };
}
