import type { Night } from '../domain/night.ts';
import type { WatchName } from '../domain/roster.ts';
import { gainOf } from './gain.ts';
import type { Plan, PlannedPost } from './plan.ts';
import type { Post, RosterQuestion } from './roster-question.ts';
import { type Shift, shiftsOf } from './watches.ts';

/** One post in one watch, as it stands in a calendar of nights by posts. */
export interface BoardCell {
  readonly night: Night;
  readonly watch: WatchName;
  readonly post: Post;
  /** Boils to be expected there in the whole watch. */
  readonly chance: number;
  readonly planned: PlannedPost | null;
  /** Who is placed there by hand. */
  readonly pinned: ReadonlySet<string>;
  /** Kept by hand, whoever sits there. */
  readonly isKept: boolean;
}

export interface BoardRow {
  readonly post: Post;
  /** One for each column. */
  readonly cells: readonly BoardCell[];
}

export interface Board {
  readonly columns: readonly Pick<Shift, 'outlook' | 'watch' | 'from_ms' | 'to_ms'>[];
  /** Along the shore; posts of a plan given out that are no more come last. */
  readonly rows: readonly BoardRow[];
  /** Posts left out for want of odds. */
  readonly hidden: number;
}

/** A post is shown from this chance on some night on, or where somebody sits. */
const shownFrom = 0.03;

/** A plan as a calendar of nights by posts; `all` shows posts with next to no odds too. */
export function boardOf(question: RosterQuestion, plan: Plan, all: boolean): Board {
  const columns = shiftsOf(question.nights, question.rules, question.zone);
  const known = new Set(question.posts.map(({ id }) => id));
  const gone = new Map(
    plan.posts.flatMap(({ post }) => (known.has(post.id) ? [] : [[post.id, post] as const])),
  );
  const rows = [...question.posts, ...gone.values()].map((post): BoardRow => {
    return { post, cells: columns.map((shift) => cellOf(question, plan, shift, post)) };
  });
  const shown = rows.filter(({ cells }) => all || cells.some(isTold));
  return { columns, rows: shown, hidden: rows.length - shown.length };
}

function isTold({ chance, planned, pinned, isKept }: BoardCell): boolean {
  return chance >= shownFrom || planned !== null || pinned.size > 0 || isKept;
}

function cellOf({ pins }: RosterQuestion, plan: Plan, shift: Shift, post: Post): BoardCell {
  const { outlook, watch } = shift;
  const { night } = outlook;
  const here = pins.filter(
    (pin) => pin.night === night && pin.watch === watch && post.nests.includes(pin.nest),
  );
  const planned = plan.posts.find(
    (entry) => entry.night === night && entry.watch === watch && entry.post.id === post.id,
  );
  return {
    night,
    watch,
    post,
    chance: gainOf(shift, post, shift, 'boils'),
    planned: planned ?? null,
    pinned: new Set(here.flatMap(({ sitter }) => sitter ?? [])),
    isKept: here.some(({ sitter }) => sitter === null),
  };
}
