import { writeCsv } from '../../core/exchange/csv/write-csv.ts';
import { type InventedSeason, inventSeason } from '../../core/invented-season/invented-season.ts';
import { writeFolder } from '../../edges/disk/season-folder.ts';
import { needed, oneOf, readArguments, wholeNumber } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';

const options = {
  nests: { type: 'string' },
  seed: { type: 'string' },
  out: { type: 'string' },
  year: { type: 'string' },
  weather: { type: 'string' },
  observers: { type: 'string' },
} as const;

/** Writes an invented season, with the truth behind it in `truth.csv`; nothing there is real. */
export const simulate: Command = {
  name: 'simulate',
  usage:
    'simulate --nests N --seed S --out FOLDER [--year Y] [--weather ordinary|hot-dry|cold-wet|stormy] [--observers mixed|novice|seasoned]',
  summary: 'invents a season of a coast that does not exist, in the tables of a season folder',
  run: async (args, io) => {
    const { values } = readArguments(args, options, []);
    const nests = wholeNumber(needed(values.nests, 'nests'), 'nests', 1);
    const seed = wholeNumber(needed(values.seed, 'seed'), 'seed', 0);
    const out = needed(values.out, 'out');
    const { year, weather, observers } = values;
    const season = inventSeason({
      nests,
      seed,
      ...(year === undefined ? {} : { year: wholeNumber(year, 'year', 1900) }),
      ...(weather === undefined
        ? {}
        : { weather: oneOf(weather, 'weather', ['ordinary', 'hot-dry', 'cold-wet', 'stormy']) }),
      ...(observers === undefined
        ? {}
        : { observers: oneOf(observers, 'observers', ['mixed', 'novice', 'seasoned']) }),
    });
    const written = await writeFolder(out, filesOf(season));
    if (!written.ok) {
      io.err(`${written.message}\n`);
      return 1;
    }
    io.out(`An invented season of ${nests} nests lies in ${out}. Nothing in it is real.\n`);
    return 0;
  },
};

/** The files of an invented season by name. */
function filesOf({ programme, tables, truth }: InventedSeason): ReadonlyMap<string, string> {
  const files = new Map<string, string>([
    ['README.txt', readme],
    ['programme.json', `${JSON.stringify(programme, null, 2)}\n`],
  ]);
  for (const { file, columns, rows } of tables) files.set(file, writeCsv([columns, ...rows], '\n'));
  const columns = ['nest', 'outcome', 'lay_night', 'night', 'time', 'hatchlings'] as const;
  const rows = truth.map((fate) => columns.map((column) => String(fate[column] ?? '')));
  files.set('truth.csv', writeCsv([columns, ...rows], '\n'));
  return files;
}

const readme = `This season is invented. The place, the people, the nests and the weather do not exist.

truth.csv holds what no table of a real season could: what became of each nest, when it was laid,
and when it came up. The program does not read it.
`;
