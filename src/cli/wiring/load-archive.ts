import { hasErrors } from '../../core/exchange/problem.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { CommandIo } from './command.ts';
import { loadSeason, tellProblems } from './load-season.ts';

/** The finished seasons in some folders, and whether any of them has errors. */
export async function loadArchive(
  folders: readonly string[],
  zone: string,
  io: CommandIo,
): Promise<{ readonly finished: readonly SeasonRecord[]; readonly errors: boolean }> {
  const finished: SeasonRecord[] = [];
  let errors = false;
  for (const folder of folders) {
    const { record, problems } = await loadSeason(folder, { zone, now_ms: io.now_ms() });
    tellProblems(problems, io);
    errors ||= hasErrors(problems);
    finished.push(record);
  }
  return { finished, errors };
}
