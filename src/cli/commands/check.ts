import { hasErrors } from '../../core/exchange/problem.ts';
import { readArguments, zoneOption } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';
import { describeCounts } from '../wiring/describe-counts.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';

/**
 * Says what is wrong in a season folder. With `--json` one document, in which `problems` also
 * holds warnings (`severity` tells them apart); `ok` is false when there are errors.
 */
export const check: Command = {
  name: 'check',
  usage: 'check FOLDER [--zone ZONE] [--json]',
  summary: 'says what is wrong in the tables of a season, by file, row and column',
  run: async (args, io) => {
    const options = { json: { type: 'boolean' }, zone: { type: 'string' } } as const;
    const { values, at } = readArguments(args, options, ['FOLDER']);
    const zone = zoneOption(values.zone) ?? io.zone;
    const { problems, read } = await loadSeason(at[0] ?? '', { zone, now_ms: io.now_ms() });
    const ok = !hasErrors(problems);
    if (values.json === true) {
      io.out(`${JSON.stringify({ ok, problems, counts: read.counts }, null, 2)}\n`);
      return ok ? 0 : 1;
    }
    tellProblems(problems, io);
    const errors = problems.filter((problem) => problem.severity === 'error').length;
    const warnings = problems.length - errors;
    const verdict =
      ok && warnings === 0 ? 'nothing wrong' : `errors: ${errors}, warnings: ${warnings}`;
    io.out(`${describeCounts(read.counts)}; ${verdict}.\n`);
    return ok ? 0 : 1;
  },
};
