import { basename } from 'node:path';
import { type Problem, problemLine } from '../../core/exchange/problem.ts';
import {
  type ReadSeason,
  readSeasonFolder,
} from '../../core/exchange/season-folder/read-season-folder.ts';
import { fold } from '../../core/log/fold.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import { readFolder } from '../../edges/disk/season-folder.ts';
import type { CommandIo } from './command.ts';

export interface LoadOptions {
  /** IANA zone for folders whose programme.json names none; null = the machine's. */
  readonly zone?: string | null;
  readonly now_ms?: number;
  /** A record that the folder's rows will join. */
  readonly into?: SeasonRecord;
}

export interface LoadedSeason {
  /** The season that the good rows tell. */
  readonly record: SeasonRecord;
  /** Errors and warnings; rows with errors are not in the record. */
  readonly problems: readonly Problem[];
  readonly read: ReadSeason;
}

/**
 * Reads a season folder into a record. Never throws for what lies in the folder: rows with errors
 * are left out and told in `problems` (`hasErrors(problems)` decides on exit code 1), the good
 * ones are there all the same. A folder that cannot be opened is an error, with an empty record.
 */
export async function loadSeason(folder: string, options: LoadOptions = {}): Promise<LoadedSeason> {
  const zone = options.zone ?? machineZone();
  const found = await readFolder(folder);
  if (!found.ok) {
    const file = basename(folder);
    const problem = {
      file,
      row: 0,
      column: '',
      message: found.message,
      severity: 'error',
    } as const;
    const read = { events: [], problems: [problem], counts: {}, zone };
    return { record: fold([], zone), problems: [problem], read };
  }
  const read = readSeasonFolder(found.files, {
    zone,
    author: 'import',
    device: 'command line',
    now_ms: options.now_ms ?? Date.now(),
    ...(options.into === undefined ? {} : { into: options.into }),
  });
  return { record: fold(read.events, read.zone), problems: read.problems, read };
}

/** IANA name of this machine's time zone. */
export function machineZone(): string {
  return Intl.DateTimeFormat().resolvedOptions().timeZone;
}

/** Tells every problem on standard error, one line each. */
export function tellProblems(problems: readonly Problem[], io: CommandIo): void {
  if (problems.length > 0) io.err(problems.map((problem) => `${problemLine(problem)}\n`).join(''));
}
