import { readSeasonFolder } from '../src/core/exchange/season-folder/read-season-folder.ts';
import { largeVisits } from '../tests/builders/large-visits.ts';
import { files } from '../tests/builders/season-files.ts';
import { measure } from './measure.ts';

/** Prints how long a visits.csv of 50 MB with short notes takes to read; aim: under 20 s. */
export async function run(): Promise<void> {
  const { bytes, rows } = largeVisits(50e6, 'still, then a rustle');
  const folder = files({ 'nests.csv': 'nest,lay_night\nW-1,2026-05-20\n', 'visits.csv': bytes });
  const options = { zone: 'America/New_York', author: 'bench', device: 'bench', now_ms: 1.8e12 };
  let taken = 0;
  const { median_ms, peak_mb } = await measure(
    () => (taken = readSeasonFolder(folder, options).events.length),
    { repeats: 1, warmUps: 0 },
  );
  console.log(
    `50 MB, ${rows} rows: ${taken} events in ${(median_ms / 1000).toFixed(1)} s, at most ${peak_mb.toFixed(0)} MB`,
  );
}
