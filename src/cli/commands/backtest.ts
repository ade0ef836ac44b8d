import { hasErrors } from '../../core/exchange/problem.ts';
import { type Score, backtest as replay } from '../../core/forecast/backtest.ts';
import { EveningMemory } from '../../core/forecast/evening-memory.ts';
import { LearningMemory } from '../../core/forecast/learning-memory.ts';
import { ForecastMemory } from '../../core/forecast/season-memory.ts';
import { readArguments, zoneOption } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';
import { loadArchive } from '../wiring/load-archive.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';

/** How good the odds of a finished season would have been, beside the calendar rules. */
export const backtest: Command = {
  name: 'backtest',
  usage: 'backtest FOLDER [--archive FOLDER …] [--zone ZONE] [--json]',
  summary: 'replays a season evening by evening with only what was known then, and scores the odds',
  run: async (args, io) => {
    const options = {
      zone: { type: 'string' },
      archive: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    } as const;
    const { values, at } = readArguments(args, options, ['FOLDER']);
    const zone = zoneOption(values.zone) ?? io.zone;
    const { record, problems } = await loadSeason(at[0] ?? '', { zone, now_ms: io.now_ms() });
    tellProblems(problems, io);
    const { finished, errors } = await loadArchive(values.archive ?? [], zone, io);
    const { archive } = new EveningMemory(finished);
    const first = new ForecastMemory({ archive });
    const learning = new LearningMemory(undefined, finished, undefined, first);
    const { nights, boils, ours, calendar, learned, reliability } = replay(record, null, (moment) =>
      learning.at(record, moment),
    );
    if (values.json === true) {
      const document = {
        nights,
        ...scoreJson(ours),
        boils,
        calendar: scoreJson(calendar),
        calendar_learned: scoreJson(learned),
        reliability: reliability.map(({ said, happened, n }) => ({ said, happened, n })),
      };
      io.out(`${JSON.stringify(document, null, 1)}\n`);
    } else {
      io.out(`${nights} nights, ${boils} boils with a known night.\n\n`);
      io.out('                    log score   Brier   boils met by 1, 3, 5 pairs\n');
      io.out(scoreLine('our odds', ours));
      io.out(scoreLine('day 55', calendar));
      io.out(scoreLine('learned mean', learned));
      io.out('\nsaid   happened      n\n');
      for (const { said, happened, n } of reliability) {
        io.out(`${said.toFixed(3)}     ${happened.toFixed(3)}  ${String(n).padStart(5)}\n`);
      }
    }
    return hasErrors(problems) || errors ? 1 : 0;
  },
};

function scoreJson({ logScore, brier, metByRank }: Score): object {
  return { log_score: logScore, brier, met_by_rank: metByRank };
}

function scoreLine(name: string, { logScore, brier, metByRank }: Score): string {
  const met = [1, 3, 5].map(
    (pairs) => metByRank.find((entry) => entry.pairs === pairs)?.share.toFixed(2) ?? '-',
  );
  return `${name.padEnd(18)} ${logScore.toFixed(4).padStart(10)}  ${brier.toFixed(4)}   ${met.join(', ')}\n`;
}
