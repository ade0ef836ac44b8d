import { writeSeasonFolder } from '../../core/exchange/season-folder/write-season-folder.ts';
import { hasErrors } from '../../core/exchange/problem.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import { writeFolder } from '../../edges/disk/season-folder.ts';
import { needed, oneOf, readArguments, zoneOption } from '../wiring/arguments.ts';
import { type Command, type CommandIo, WrongUsage } from '../wiring/command.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';
import { readRecord } from '../wiring/open-record.ts';

const options = {
  log: { type: 'string' },
  format: { type: 'string' },
  out: { type: 'string' },
  zone: { type: 'string' },
} as const;

/**
 * Writes a season out. `folder` gives the tables exactly as they came in, for this program and the
 * next device; `csv` is for spreadsheets: cells that one would run as a formula are guarded.
 */
export const exportCommand: Command = {
  name: 'export',
  usage: 'export FOLDER | --log FILE  --format folder|csv --out FOLDER [--zone ZONE]',
  summary: 'writes the tables of a season, out of a folder or a log',
  run: async (args, io) => {
    const fromLog = args.some((arg) => arg === '--log' || arg.startsWith('--log='));
    const { values, at } = readArguments(args, options, fromLog ? [] : ['FOLDER']);
    const format = oneOf(needed(values.format, 'format'), 'format', ['folder', 'csv']);
    const out = needed(values.out, 'out');
    const zone = zoneOption(values.zone) ?? io.zone;
    const source = fromLog
      ? await fromLogFile(needed(values.log, 'log'), zone, io)
      : await fromFolder(at[0] ?? '', zone, io);
    if (source.record === null) return 1;
    const written = await writeFolder(
      out,
      writeSeasonFolder(source.record, { guard: format === 'csv' }),
    );
    if (!written.ok) {
      io.err(`${written.message}\n`);
      return 1;
    }
    io.out(`The season lies in ${out}.\n`);
    return source.clean ? 0 : 1;
  },
};

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
