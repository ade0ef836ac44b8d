import { hasErrors } from '../../core/exchange/problem.ts';
import { reconcile } from '../../core/exchange/reconcile/reconcile.ts';
import { needed, readArguments, zoneOption } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';
import { describeComparisons } from '../wiring/describe-counts.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';
import { appendEvents, readRecord } from '../wiring/open-record.ts';

/**
 * Takes a season folder into a log. Good rows are taken even when others have errors (exit code 1
 * then). What stands in the log already adds nothing; what stands with other values is corrected.
 */
export const importCommand: Command = {
  name: 'import',
  usage: 'import FOLDER --log FILE [--zone ZONE] [--json]',
  summary: 'takes the tables of a season into a log; once more adds nothing',
  run: async (args, io) => {
    const options = {
      log: { type: 'string' },
      zone: { type: 'string' },
      json: { type: 'boolean' },
    } as const;
    const { values, at } = readArguments(args, options, ['FOLDER']);
    const path = needed(values.log, 'log');
    const zone = zoneOption(values.zone) ?? io.zone;
    const found = await readRecord(path, zone);
    if (!found.ok) {
      io.err(`${found.message}\n`);
      return 1;
    }
    const now_ms = io.now_ms();
    const { record } = found;
    const into = record.nests.size > 0 ? { into: record } : {};
    const { read, problems } = await loadSeason(at[0] ?? '', { zone, now_ms, ...into });
    tellProblems(problems, io);
    const who = { author: 'import', device: 'command line', now_ms };
    const { events, counts } = reconcile(read, record, who);
    const appended = await appendEvents(path, events);
    if (!appended.ok) {
      io.err(`${appended.message}\n`);
      return 1;
    }
    const { added } = appended;
    if (values.json === true) io.out(`${JSON.stringify({ added, counts, problems }, null, 2)}\n`);
    else io.out(`${describeComparisons(counts)}; ${added} events added to ${path}.\n`);
    return hasErrors(problems) ? 1 : 0;
  },
};
