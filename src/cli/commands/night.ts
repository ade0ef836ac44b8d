import { formatInstant } from '../../core/domain/instant.ts';
import type { NestId } from '../../core/domain/nest.ts';
import { hasErrors } from '../../core/exchange/problem.ts';
import { EveningMemory } from '../../core/forecast/evening-memory.ts';
import { restOfNight } from '../../core/forecast/rest-of-night.ts';
import { needed, readArguments, zoneOption } from '../wiring/arguments.ts';
import { type Command, WrongUsage } from '../wiring/command.ts';
import { loadArchive } from '../wiring/load-archive.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';
import { momentOf, nightOption } from '../wiring/moment.ts';

/** Stay or go: the chance for what is left of a night at one nest. */
export const night: Command = {
  name: 'night',
  usage:
    'night FOLDER --night DATE --nest ID --at ISO-TIME [--archive FOLDER …] [--zone ZONE] [--json]',
  summary:
    'the chance for the rest of that night when the nest was watched so far and nothing came',
  run: async (args, io) => {
    const options = {
      night: { type: 'string' },
      nest: { type: 'string' },
      at: { type: 'string' },
      zone: { type: 'string' },
      archive: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    } as const;
    const { values, at } = readArguments(args, options, ['FOLDER']);
    const date = nightOption(needed(values.night, 'night'));
    const nest = needed(values.nest, 'nest');
    const zone = zoneOption(values.zone) ?? io.zone;
    const { record, problems } = await loadSeason(at[0] ?? '', { zone, now_ms: io.now_ms() });
    const moment = momentOf(date, needed(values.at, 'at'), record.zone, io);
    tellProblems(problems, io);
    const { finished, errors } = await loadArchive(values.archive ?? [], zone, io);
    const memory = new EveningMemory(finished).on(record, moment);
    const found = restOfNight(record, moment, nest as NestId, memory);
    if (found === null)
      throw new WrongUsage(`--nest "${nest}": there is no such nest in ${at[0] ?? ''}.`);
    const hours = found.byHour.map(({ from_ms, to_ms, p }) => ({
      from: formatInstant(Math.floor(from_ms / 60_000) * 60_000, record.zone),
      to: formatInstant(Math.floor(to_ms / 60_000) * 60_000, record.zone),
      p,
    }));
    if (values.json === true) {
      io.out(
        `${JSON.stringify({ nest, p_rest_of_night: found.pRest, by_hour: hours }, null, 1)}\n`,
      );
    } else {
      io.out(`${nest}: ${(found.pRest * 100).toFixed(1)} % for the rest of the night\n`);
      for (const { from, to, p } of hours) {
        io.out(`  ${from.slice(11, 16)} to ${to.slice(11, 16)}  ${(p * 100).toFixed(1)} %\n`);
      }
    }
    return hasErrors(problems) || errors ? 1 : 0;
  },
};
