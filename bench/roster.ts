// npm run bench -- roster [sizes|replay]: how long a plan takes, how near its bound it is and how much
// memory it holds, for questions of three sizes; and seasons in which three pairs a night are placed by
// the roster instead of by rank. Fixed seeds.
import { greedyPlan } from '../src/core/roster/greedy-plan.ts';
import { makeRoster } from '../src/core/roster/make-roster.ts';
import { openingsOf } from '../src/core/roster/openings.ts';
import { placementsOf } from '../src/core/roster/plan.ts';
import { planChanges } from '../src/core/roster/plan-changes.ts';
import type { RosterQuestion } from '../src/core/roster/roster-question.ts';
import { separateParts } from '../src/core/roster/zone-parts.ts';
import { highsSolver } from '../src/edges/solver/highs.ts';
import { drawQuestion } from '../tests/builders/roster-question.ts';
import { replaySeasons } from './roster/replay.ts';

interface Size {
  readonly people: number;
  readonly nights: number;
  readonly posts: number;
  readonly zones: number;
  /** Whether everybody sits in one zone only; else two in three go anywhere. */
  readonly settled: boolean;
  readonly time_s: number;
}

const sizes: readonly Size[] = [
  { people: 30, nights: 7, posts: 15, zones: 2, settled: false, time_s: 10 },
  { people: 150, nights: 14, posts: 60, zones: 3, settled: false, time_s: 10 },
  { people: 600, nights: 14, posts: 240, zones: 8, settled: true, time_s: 40 },
  { people: 600, nights: 14, posts: 240, zones: 8, settled: false, time_s: 60 },
];

export async function run(): Promise<void> {
  const which = process.argv[3];
  if (which !== 'replay') await planSizes();
  if (which !== 'sizes') await replaySeasons();
}

async function planSizes(): Promise<void> {
  console.log(
    'people nights posts zones parts  by hand     plan    bound    gap   seconds  memory',
  );
  for (const size of sizes) {
    const question = draw(size);
    const { people, nights, posts, zones, time_s } = size;
    const byHand = greedyPlan(question, openingsOf(question)).value;
    const parts = separateParts(question, openingsOf(question)).length;
    const first = await timed(question, time_s);
    console.log(
      [people, nights, posts, zones, parts].map((count) => String(count).padStart(5)).join(' '),
      [byHand, first.roster.plan.value, first.roster.bound]
        .map((value) => value.toFixed(2).padStart(8))
        .join(' '),
      `${(first.roster.gap * 100).toFixed(2)} %`.padStart(8),
      first.seconds.toFixed(1).padStart(6),
      `${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`.padStart(9),
    );
    if (first.roster.trouble !== null) console.log(`      ${first.roster.trouble}`);
    const before = placementsOf(first.roster.plan);
    const gone = before[0]?.sitter;
    const again = await timed(
      {
        ...question,
        before,
        sitters: question.sitters.map((sitter) =>
          sitter.name === gone ? { ...sitter, free: new Map() } : sitter,
        ),
      },
      time_s,
    );
    const changes = planChanges(before, placementsOf(again.roster.plan));
    console.log(
      `      one of them with ${before.filter(({ sitter }) => sitter === gone).length} shifts cannot come: ${changes.length} of ${before.length} shifts change, ${again.seconds.toFixed(1)} s, gap ${(again.roster.gap * 100).toFixed(2)} %`,
    );
  }
}

function draw({ people, nights, posts, zones, settled }: Size): RosterQuestion {
  const drawn = drawQuestion({ seed: 1, people, nights, posts, zones, offered: 0.35 });
  if (!settled) return drawn;
  const names = Array.from({ length: zones }, (_, index) => `Z${index}`);
  return {
    ...drawn,
    sitters: drawn.sitters.map((sitter, index) => ({
      ...sitter,
      zones: [names[index % zones] ?? ''],
    })),
  };
}

async function timed(question: RosterQuestion, time_s: number) {
  const from_ms = performance.now();
  const roster = await makeRoster(question, highsSolver(), { time_s, gap: 0.002 });
  return { roster, seconds: (performance.now() - from_ms) / 1000 };
}
