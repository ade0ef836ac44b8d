import { asNight, formatNight, wallClock } from '../../core/domain/night.ts';
import { darwinCoreArchive } from '../../core/exchange/darwin-core/darwin-core-archive.ts';
import { seasonGeojson } from '../../core/exchange/geojson/season-geojson.ts';
import { hasErrors } from '../../core/exchange/problem.ts';
import { type Precision, precisions } from '../../core/exchange/public/generalise.ts';
import { publicRecord } from '../../core/exchange/public/public-record.ts';
import { writeSeasonFolder } from '../../core/exchange/season-folder/write-season-folder.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import { needed, oneOf, readArguments, zoneOption } from '../wiring/arguments.ts';
import { type Command, type CommandIo, WrongUsage } from '../wiring/command.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';
import { readRecord } from '../wiring/open-record.ts';
import { type ToWrite, writeOut } from '../wiring/write-out.ts';

const formats = ['folder', 'csv', 'geojson', 'dwca'] as const;
type Format = (typeof formats)[number];

const options = {
  log: { type: 'string' },
  format: { type: 'string' },
  out: { type: 'string' },
  zone: { type: 'string' },
  public: { type: 'boolean' },
  precision: { type: 'string' },
} as const;

/** Without a word on it, positions for the public are rounded the most. */
const safest: Precision = 0.1;

/**
 * Writes a season out. `folder` gives the tables exactly as they came in, for this program and the
 * next device; `csv` is for spreadsheets: cells that one would run as a formula are guarded; `geojson`
 * for maps; `dwca` a Darwin Core Archive, one file when PATH ends in .zip. `--public` rounds positions
 * and leaves out people, remarks and names of places, whatever the format.
 */
export const exportCommand: Command = {
  name: 'export',
  usage:
    'export FOLDER | --log FILE  --format folder|csv|geojson|dwca --out PATH [--public [--precision 0.1|0.01|0.001]] [--zone ZONE]',
  summary: 'writes a season out of a folder or a log: tables, GeoJSON, a Darwin Core Archive',
  run: async (args, io) => {
    const fromLog = args.some((arg) => arg === '--log' || arg.startsWith('--log='));
    const { values, at } = readArguments(args, options, fromLog ? [] : ['FOLDER']);
    const format = oneOf(needed(values.format, 'format'), 'format', formats);
    const out = needed(values.out, 'out');
    const precision = precisionOf(values.public === true, values.precision);
    const zone = zoneOption(values.zone) ?? io.zone;
    const source = fromLog
      ? await fromLogFile(needed(values.log, 'log'), zone, io)
      : await fromFolder(at[0] ?? '', zone, io);
    if (source.record === null) return 1;
    const record = precision === null ? source.record : publicRecord(source.record, precision);
    const written = await writeOut(out, contentOf(record, format, precision, io), io.now_ms());
    if (!written.ok) {
      io.err(`${written.message}\n`);
      return 1;
    }
    io.out(`The season lies in ${written.path}.${said(precision)}\n`);
    return source.clean ? 0 : 1;
  },
};

function precisionOf(isPublic: boolean, text: string | undefined): Precision | null {
  if (text !== undefined && !isPublic) {
    throw new WrongUsage('--precision rounds positions for the public: give --public with it.');
  }
  if (!isPublic) return null;
  if (text === undefined) return safest;
  const named = oneOf(text, 'precision', ['0.1', '0.01', '0.001']);
  return precisions.find((one) => String(one) === named) ?? safest;
}

function contentOf(
  record: SeasonRecord,
  format: Format,
  precision: Precision | null,
  io: CommandIo,
): ToWrite {
  switch (format) {
    case 'folder':
    case 'csv': {
      const guard = format === 'csv';
      return { kind: 'files', files: writeSeasonFolder(record, { guard }), canZip: false };
    }
    case 'geojson':
      return { kind: 'file', name: 'nests.geojson', text: seasonGeojson(record, precision) };
    case 'dwca': {
      const today = formatNight(asNight(wallClock(io.now_ms(), record.zone).day));
      return { kind: 'files', files: darwinCoreArchive(record, precision, today), canZip: true };
    }
  }
}

function said(precision: Precision | null): string {
  return precision === null
    ? ''
    : ` Positions are rounded to ${precision} degree; people, remarks and names of places are left out.`;
}

interface Loaded {
  /** Null when there is nothing that could be written. */
  readonly record: SeasonRecord | null;
  readonly clean: boolean;
}

async function fromLogFile(path: string, zone: string, io: CommandIo): Promise<Loaded> {
  const found = await readRecord(path, zone);
  if (found.ok) return { record: found.record, clean: true };
  io.err(`${found.message}\n`);
  return { record: null, clean: false };
}

async function fromFolder(folder: string, zone: string, io: CommandIo): Promise<Loaded> {
  if (folder === '') throw new WrongUsage('FOLDER is missing.');
  const { record, problems } = await loadSeason(folder, { zone, now_ms: io.now_ms() });
  tellProblems(problems, io);
  const clean = !hasErrors(problems);
  const isEmpty = record.events.size === 0;
  return { record: isEmpty && !clean ? null : record, clean };
}
