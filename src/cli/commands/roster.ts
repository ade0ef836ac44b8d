import { writeFile } from 'node:fs/promises';
import { formatNight } from '../../core/domain/night.ts';
import { calendarText } from '../../core/exchange/icalendar.ts';
import { hasErrors } from '../../core/exchange/problem.ts';
import { comingNights } from '../../core/forecast/coming-nights.ts';
import { EveningMemory } from '../../core/forecast/evening-memory.ts';
import { forecastSeason } from '../../core/forecast/tonight.ts';
import { askRoster, publishedPlacements } from '../../core/roster/ask-roster.ts';
import { makeRoster } from '../../core/roster/make-roster.ts';
import type { Roster } from '../../core/roster/plan.ts';
import { clockWords } from '../../core/roster/plan-text.ts';
import { publishedNights } from '../../core/roster/publish.ts';
import type { RosterQuestion } from '../../core/roster/roster-question.ts';
import { needed, readArguments, wholeNumber, zoneOption } from '../wiring/arguments.ts';
import { type Command, WrongUsage } from '../wiring/command.ts';
import { loadArchive } from '../wiring/load-archive.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';
import { momentOf, nightOption } from '../wiring/moment.ts';
import { nodeSolver } from '../wiring/node-solver.ts';

/** No odds reach farther than this with any use. */
const mostNights = 14;
/** A plan this near the bound is good enough, and how long is taken for a better one, seconds. */
const effort = { gap: 0.001, time_s: 20 };

/** Who sits where on a night and those after it. */
export const roster: Command = {
  name: 'roster',
  usage:
    'roster FOLDER --night DATE [--nights N] [--at ISO-TIME] [--archive FOLDER …] [--zone ZONE] [--ics FILE] [--json]',
  summary: 'places the sitters where most boils are met, on a night and up to 13 after it',
  run: async (args, io) => {
    const options = {
      night: { type: 'string' },
      nights: { type: 'string' },
      at: { type: 'string' },
      zone: { type: 'string' },
      archive: { type: 'string', multiple: true },
      ics: { type: 'string' },
      json: { type: 'boolean' },
    } as const;
    const { values, at } = readArguments(args, options, ['FOLDER']);
    const night = nightOption(needed(values.night, 'night'));
    const count = wholeNumber(values.nights ?? '1', 'nights', 1);
    if (count > mostNights) {
      throw new WrongUsage(`--nights ${count}: expected at most ${mostNights}.`);
    }
    const zone = zoneOption(values.zone) ?? io.zone;
    const { record, problems } = await loadSeason(at[0] ?? '', { zone, now_ms: io.now_ms() });
    const moment = momentOf(night, values.at, record.zone, io);
    const { finished, errors } = await loadArchive(values.archive ?? [], zone, io);
    tellProblems(problems, io);
    const memory = new EveningMemory(finished).on(record, moment);
    const nights = comingNights(record, forecastSeason(record, moment, memory), count);
    const question = askRoster(record, nights, publishedPlacements(record, nights));
    const solver = nodeSolver();
    const from_ms = io.now_ms();
    const made = await makeRoster(question, solver, effort).finally(() => {
      solver.close();
    });
    const seconds = (io.now_ms() - from_ms) / 1000;
    if (made.trouble !== null) io.err(`${made.trouble}\n`);
    const calendar = calendarOf(made, question, record.programme.name ?? '', io.now_ms());
    const unwritten = values.ics === undefined ? null : await writeTo(values.ics, calendar);
    if (unwritten !== null) io.err(`${unwritten}\n`);
    io.out(
      values.json === true
        ? `${JSON.stringify(asJson(made, question, seconds), null, 1)}\n`
        : asText(made, question),
    );
    return hasErrors(problems) || errors || unwritten !== null ? 1 : 0;
  },
};

function asJson(made: Roster, { nights, zone, rules }: RosterQuestion, seconds: number): unknown {
  const told = publishedNights(
    made.plan,
    nights.map(({ night }) => night),
    zone,
  );
  return {
    nights: told.map(({ night, posts }) => ({
      night,
      posts: posts.map(({ nests, watch, from, to, sitters, value }) => ({
        post: nests.join('+'),
        nests,
        watch,
        from,
        to,
        sitters,
        value,
      })),
    })),
    goal: rules.goal,
    objective: made.plan.value,
    bound: made.bound,
    gap: made.gap,
    seconds,
    unmet: made.unmet.map(({ night, watch, post, text }) => ({
      night: formatNight(night),
      watch,
      post,
      message: text,
    })),
    notices: made.notices.map(({ text }) => text),
  };
}

function asText({ plan, bound, gap, unmet, notices }: Roster, question: RosterQuestion): string {
  const { nights, zone, rules } = question;
  const what = rules.goal === 'boils' ? 'boils met' : 'hatchlings kept from going astray';
  const lines = nights.flatMap(({ night }) => {
    const posts = plan.posts.filter((post) => post.night === night);
    return [
      `Night of ${formatNight(night)}`,
      ...(posts.length === 0 ? ['  nobody sits'] : []),
      ...posts.map(({ post, from_ms, to_ms, sitters, value }) => {
        const [from, to] = [from_ms, to_ms].map((at_ms) => clockWords(at_ms, zone));
        return `  ${from} to ${to}  ${post.id.padEnd(16)} ${sitters.join(', ').padEnd(28)} ${value.toFixed(2)}`;
      }),
    ];
  });
  return `${[
    ...lines,
    '',
    `${plan.value.toFixed(2)} ${what} to be expected; no plan can bring more than ${bound.toFixed(2)} (gap ${(gap * 100).toFixed(1)} %).`,
    ...unmet.map(({ text }) => text),
    ...notices.map(({ text }) => text),
  ].join('\n')}\n`;
}

function calendarOf(
  { plan }: Roster,
  { nights, zone }: RosterQuestion,
  programme: string,
  now_ms: number,
): string {
  const told = publishedNights(
    plan,
    nights.map(({ night }) => night),
    zone,
  );
  const revised = told.map(({ night, posts }) => ({
    night,
    revisions: [{ written_ms: now_ms, posts }],
  }));
  return calendarText(revised, { programme, zone, person: null });
}

/** Null when it was written, else why not. */
async function writeTo(path: string, text: string): Promise<string | null> {
  try {
    await writeFile(path, text);
    return null;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return `The calendar could not be written to ${path}: ${why}. Name a file in a folder that is there.`;
  }
}
