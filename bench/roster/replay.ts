import { type Night, atWallClock } from '../../src/core/domain/night.ts';
import type { NestId } from '../../src/core/domain/nest.ts';
import { comingNights } from '../../src/core/forecast/coming-nights.ts';
import { LearningMemory } from '../../src/core/forecast/learning-memory.ts';
import { forecastSeason } from '../../src/core/forecast/tonight.ts';
import { askRoster } from '../../src/core/roster/ask-roster.ts';
import { greedyPlan } from '../../src/core/roster/greedy-plan.ts';
import { makeRoster } from '../../src/core/roster/make-roster.ts';
import { openingsOf } from '../../src/core/roster/openings.ts';
import { type PlannedPost, placementsOf, planOf } from '../../src/core/roster/plan.ts';
import type { Placement, RosterQuestion, Sitter } from '../../src/core/roster/roster-question.ts';
import { highsSolver } from '../../src/edges/solver/highs.ts';
import { benchSeason } from '../seasons.ts';

const seeds = [101, 102, 103, 104, 105];
const nests = 120;
const pairs = 3;
const askedAt_min = 18 * 60;
const nightsAhead = 7;

/** Some people, alike but for their names, free every night. */
interface Crowd {
  readonly name: string;
  readonly people: number;
  readonly mostShiftsWeek: number | null;
  readonly backToBack: boolean;
}

const crowds: readonly Crowd[] = [
  { name: 'six people, every night', people: 6, mostShiftsWeek: null, backToBack: true },
  { name: 'ten people, 3 shifts a week', people: 10, mostShiftsWeek: 3, backToBack: false },
];

/** How tonight's posts are found, from the question of the coming nights. */
type Way = (question: RosterQuestion) => readonly PlannedPost[] | Promise<readonly PlannedPost[]>;

const solver = highsSolver();
const tonightOf = (
  posts: readonly PlannedPost[],
  { nights }: Pick<RosterQuestion, 'nights'>,
): readonly PlannedPost[] => posts.filter(({ night }) => night === nights[0]?.night);

const ways: Readonly<Record<string, Way>> = {
  'by rank, a nest each': (question) => byRank(singly(question)),
  'by rank, near nests together': byRank,
  'by the roster, four nights': (question) => byRoster(question, 4),
  'by the roster, seven nights': (question) => byRoster(question, nightsAhead),
};

/** The plan for so many nights, near to the one of the evening before. */
async function byRoster(question: RosterQuestion, count: number): Promise<readonly PlannedPost[]> {
  const nights = question.nights.slice(0, count);
  const effort = { time_s: 10, gap: 0.005 };
  const { plan } = await makeRoster({ ...question, nights }, solver, effort);
  return plan.posts;
}

/** The best posts of tonight, whoever is free; no thought of tomorrow. */
function byRank(question: RosterQuestion): readonly PlannedPost[] {
  const tonight = { ...question, nights: question.nights.slice(0, 1), before: [] };
  return greedyPlan(tonight, openingsOf(tonight)).posts;
}

/** Each nest a post of its own. */
function singly(question: RosterQuestion): RosterQuestion {
  return {
    ...question,
    posts: question.posts.flatMap((post) =>
      post.nests.map((nest) => ({ ...post, id: nest, nests: [nest] })),
    ),
  };
}

/** Several invented seasons evening by evening; what each way of placing three pairs meets. */
export async function replaySeasons(): Promise<void> {
  console.log(
    `\n${nests} nests a season, seeds ${seeds.join(', ')}; at most ${pairs} pairs a night`,
  );
  console.log('share of boils met (shifts sat)');
  for (const crowd of crowds) {
    const met = new Map(Object.keys(ways).map((way) => [way, { boils: 0, shifts: 0 }]));
    const each = new Map<string, string[]>();
    let boils = 0;
    for (const seed of seeds) {
      const season = benchSeason({ nests, seed });
      const known = [...season.fates.values()].filter((night) => night !== null);
      boils += known.length;
      const found = await replay(season, crowd);
      for (const [way, { boils: count, shifts }] of found) {
        const sum = met.get(way) ?? { boils: 0, shifts: 0 };
        met.set(way, { boils: sum.boils + count, shifts: sum.shifts + shifts });
        each.set(way, [...(each.get(way) ?? []), (count / known.length).toFixed(3)]);
      }
    }
    console.log(`\n${crowd.name}; ${boils} boils`);
    for (const [way, { boils: count, shifts }] of met) {
      console.log(
        `  ${way.padEnd(30)} ${(count / boils).toFixed(3)} (${shifts})  ${each.get(way)?.join(' ') ?? ''}`,
      );
    }
  }
}

async function replay(
  { record, fates }: ReturnType<typeof benchSeason>,
  crowd: Crowd,
): Promise<Map<string, { boils: number; shifts: number }>> {
  const known = [...fates.values()].filter((night) => night !== null);
  const learning = new LearningMemory();
  const met = new Map(Object.keys(ways).map((way) => [way, { boils: 0, shifts: 0 }]));
  const sat = new Map(Object.keys(ways).map((way) => [way, new Map<string, Night[]>()]));
  /** What was given out the evening before: people are moved only where it is worth it. */
  const given = new Map<string, readonly Placement[]>();
  for (let day = Math.min(...known) - 1; day <= Math.max(...known); day++) {
    const night = day as Night;
    const moment = { night, at_ms: atWallClock(day, askedAt_min, record.zone) };
    const forecast = forecastSeason(record, moment, learning.at(record, moment));
    const nights = comingNights(record, forecast, nightsAhead);
    const asked = askRoster(record, nights);
    const boiling = new Set([...fates].filter(([, fate]) => fate === night).map(([nest]) => nest));
    for (const [way, place] of Object.entries(ways)) {
      const nightsOf = sat.get(way) ?? new Map<string, Night[]>();
      const planned = await place({
        ...asked,
        before: given.get(way) ?? [],
        rules: { ...asked.rules, mostPosts: pairs },
        sitters: sittersFor(crowd, nights, nightsOf),
        pins: [],
      });
      given.set(way, placementsOf(planOf(planned)));
      const posts = tonightOf(planned, asked);
      const watched = new Set<NestId>(posts.flatMap(({ post }) => post.nests));
      const sum = met.get(way) ?? { boils: 0, shifts: 0 };
      met.set(way, {
        boils: sum.boils + [...boiling].filter((nest) => watched.has(nest)).length,
        shifts: sum.shifts + posts.length,
      });
      for (const name of posts.flatMap(({ sitters }) => sitters)) {
        nightsOf.set(name, [...(nightsOf.get(name) ?? []), night]);
      }
    }
  }
  return met;
}

function sittersFor(
  { people, mostShiftsWeek, backToBack }: Crowd,
  nights: RosterQuestion['nights'],
  sat: ReadonlyMap<string, readonly Night[]>,
): Sitter[] {
  const free = new Map(
    nights.map(({ night }) => [night, [{ from_ms: -Infinity, to_ms: Infinity }]]),
  );
  return Array.from({ length: people }, (_, index) => {
    const name = `S${index}`;
    return {
      name,
      experienced: true,
      zones: [],
      mostShiftsWeek,
      backToBack,
      free,
      sat: sat.get(name) ?? [],
    };
  });
}
