import { hasErrors } from '../../core/exchange/problem.ts';
import { type Archive, learnArchive } from '../../core/forecast/archive.ts';
import { ForecastMemory } from '../../core/forecast/season-memory.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { CommandIo } from './command.ts';
import { loadSeason, tellProblems } from './load-season.ts';

/** What the finished seasons in some folders teach, and whether any of them has errors. */
export async function loadArchive(
  folders: readonly string[],
  zone: string,
  io: CommandIo,
): Promise<{ readonly archive: Archive | null; readonly errors: boolean }> {
  const records: SeasonRecord[] = [];
  let errors = false;
  for (const folder of folders) {
    const { record, problems } = await loadSeason(folder, { zone, now_ms: io.now_ms() });
    tellProblems(problems, io);
    errors ||= hasErrors(problems);
    records.push(record);
  }
  const archive = records.length === 0 ? null : learnArchive(records, () => new ForecastMemory());
  if (archive?.converged === false) {
    io.err('What the archived seasons share could not be settled; their lesson is less sure.\n');
  }
  return { archive, errors };
}
