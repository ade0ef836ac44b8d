import type { Night } from '../domain/night.ts';
import { inOrder, plannedPost } from './crew.ts';
import { gainOf, timeAtPost, together } from './gain.ts';
import { keptPlacements } from './kept-placements.ts';
import { type Limit, limitsOf } from './limits.ts';
import type { Hand, Opening, Openings, PlacedPin } from './openings.ts';
import { type Plan, type PlannedPost, planOf } from './plan.ts';
import { pinnedNights } from './roster-program.ts';
import type { Post, RosterQuestion } from './roster-question.ts';

/** A post to be manned, with those who must be among its crew. */
interface Task {
  readonly opening: Opening;
  readonly post: Post;
  readonly must: readonly number[];
}

/** A place that is asked for, by hand or since it was so before. */
type Asked = Pick<PlacedPin, 'opening' | 'post' | 'sitter'>;

/**
 * A plan as one makes it by hand: what is pinned first, then the crews of the plan before as far as
 * they can stay, then post after post in the order of worth, each with the first crew that is free for
 * longest. It keeps to every rule; the program is never worse.
 */
export function greedyPlan(question: RosterQuestion, found: Openings): Plan {
  const taken = new Taken(question);
  const posts: PlannedPost[] = [];
  for (const { opening, post, must } of tasks(question, found)) {
    const isFull =
      question.rules.mostPosts !== null &&
      posts.filter(({ night, watch }) => isIn(opening, night, watch)).length >=
        question.rules.mostPosts;
    const isKept = posts.some(
      (planned) => planned.post === post && isIn(opening, planned.night, planned.watch),
    );
    if (isFull || isKept) continue;
    const crew = crewFor(question, opening, post, must, taken);
    const planned = crew === null ? null : plannedPost(question, opening, post, crew);
    if (crew === null || planned === null) continue;
    for (const { sitter } of crew) taken.add(sitter, planned.night);
    posts.push(planned);
  }
  return planOf(inOrder(question, posts));
}

function isIn({ shift }: Opening, night: Night, watch: PlannedPost['watch']): boolean {
  return shift.outlook.night === night && shift.watch === watch;
}

/**
 * Pins first. Of the plan before, all crews that can stay as they are come before any that has to be
 * filled up, so that nobody is taken from one to help another.
 */
function tasks(question: RosterQuestion, { openings, pins }: Openings): Task[] {
  const before = keptPlacements(question, { openings, pins, shifts: [] });
  const asked = [...pins, ...before];
  const crewOf = ({ opening, post }: Asked, among: readonly Asked[]): number[] => {
    const same = among.filter((entry) => entry.opening === opening && entry.post === post);
    return [...new Set(same.flatMap(({ sitter }) => sitter ?? []))];
  };
  const task = (one: Asked, must: (opening: Opening) => readonly number[]): Task[] => {
    const opening = one.opening === null ? undefined : openings[one.opening];
    const { post } = one;
    return opening === undefined || post === null ? [] : [{ opening, post, must: must(opening) }];
  };
  const pinned = pins.flatMap((pin) => [
    ...task(pin, () => crewOf(pin, asked)),
    ...task(pin, () => crewOf(pin, pins)),
  ]);
  const whole = before.flatMap((one) => task(one, () => crewOf(one, asked)));
  const rest = before.flatMap((one) =>
    task(one, ({ hands }) =>
      crewOf(one, asked).filter((person) => hands.some(({ sitter }) => sitter === person)),
    ),
  );
  const byWorth = openings
    .flatMap((opening) => opening.posts.map((post): Task => ({ opening, post, must: [] })))
    .map((entry) => ({
      task: entry,
      worth: gainOf(entry.opening.shift, entry.post, entry.opening.shift, question.rules.goal),
    }))
    .sort((a, b) => b.worth - a.worth);
  return [...pinned, ...whole, ...rest, ...byWorth.map((entry) => entry.task)];
}

function crewFor(
  question: RosterQuestion,
  { shift, hands }: Opening,
  post: Post,
  must: readonly number[],
  taken: Taken,
): Hand[] | null {
  const { crew: size, experienced } = question.rules;
  const isSkilled = ({ sitter }: Hand): boolean => question.sitters[sitter]?.experienced ?? false;
  const free = hands.filter(({ sitter }) => taken.canTake(sitter, shift.outlook.night));
  const crew = free.filter(({ sitter }) => must.includes(sitter));
  if (crew.length < must.length || crew.length > size) return null;
  while (crew.length < size) {
    const wanted = experienced - crew.filter(isSkilled).length;
    const onlySkilled = wanted >= size - crew.length;
    const next = free
      .filter((hand) => !crew.includes(hand) && (!onlySkilled || isSkilled(hand)))
      .map((hand) => {
        const time = timeAtPost(shift, post, together([...crew, hand].map(({ duty }) => duty)));
        return { hand, length_ms: time === null ? 0 : time.to_ms - time.from_ms };
      })
      .filter(({ length_ms }) => length_ms > 0)
      .sort(
        (a, b) =>
          b.length_ms - a.length_ms ||
          // Experienced people are kept for the posts that still need one.
          Number(isSkilled(a.hand)) - Number(isSkilled(b.hand)) ||
          taken.count(a.hand.sitter) - taken.count(b.hand.sitter) ||
          a.hand.sitter - b.hand.sitter,
      )[0];
    if (next === undefined) return null;
    crew.push(next.hand);
  }
  return crew.filter(isSkilled).length >= experienced ? crew : null;
}

/** Who has been given which nights, and who may be given one more. */
class Taken {
  readonly #nights: readonly Night[][];
  readonly #limits: readonly (readonly Limit[])[];
  readonly #sat: readonly number[];

  constructor(question: RosterQuestion) {
    const nights = question.nights.map(({ night }) => night);
    this.#nights = question.sitters.map(() => []);
    this.#limits = question.sitters.map((sitter) =>
      limitsOf(sitter, nights, pinnedNights(question, sitter.name)),
    );
    this.#sat = question.sitters.map(({ sat }) => sat.length);
  }

  count(sitter: number): number {
    return (this.#sat[sitter] ?? 0) + (this.#nights[sitter]?.length ?? 0);
  }

  canTake(sitter: number, night: Night): boolean {
    const given = this.#nights[sitter] ?? [];
    return (this.#limits[sitter] ?? [])
      .filter(({ nights }) => nights.includes(night))
      .every(({ nights, most }) => given.filter((one) => nights.includes(one)).length < most);
  }

  add(sitter: number, night: Night): void {
    this.#nights[sitter]?.push(night);
  }
}
