import { gainOf } from '../../../src/core/roster/gain.ts';
import { leastChance, leastWatch_min } from '../../../src/core/roster/roster-rules.ts';
import type { Post, RosterQuestion, Sitter } from '../../../src/core/roster/roster-question.ts';
import { shiftsOf, type Shift } from '../../../src/core/roster/watches.ts';
import type { PlannedPost } from '../../../src/core/roster/plan.ts';

const MINUTE_MS = 60_000;

/** One crew at one post in one watch, and what it is worth. */
interface Crew {
  readonly shift: Shift;
  readonly post: Post;
  readonly people: readonly Sitter[];
  readonly worth: number;
}

/**
 * The most that any plan without pins is worth, by trying every crew of every post in every watch: no
 * classes of people, no program. For small cases.
 */
export function bestByTrying(question: RosterQuestion): number {
  const places = shiftsOf(question.nights, question.rules, question.zone).flatMap((shift) =>
    question.posts.map((post) => crewsFor(question, shift, post)),
  );
  const mostLeft = places.map(() => 0);
  for (let index = places.length - 1; index >= 0; index--) {
    const here = Math.max(0, ...places[index]!.map(({ worth }) => worth));
    mostLeft[index] = here + (mostLeft[index + 1] ?? 0);
  }
  let best = 0;
  const chosen: Crew[] = [];
  const tryFrom = (index: number, worth: number): void => {
    best = Math.max(best, worth);
    if (index === places.length || worth + mostLeft[index]! <= best) return;
    for (const crew of places[index]!) {
      chosen.push(crew);
      if (isAllowed(question, chosen)) tryFrom(index + 1, worth + crew.worth);
      chosen.pop();
    }
    tryFrom(index + 1, worth);
  };
  tryFrom(0, 0);
  return best;
}

function crewsFor({ rules, sitters }: RosterQuestion, shift: Shift, post: Post): Crew[] {
  if (gainOf(shift, post, shift, 'boils') < leastChance) return [];
  return subsets(sitters, rules.crew).flatMap((people): Crew[] => {
    if (people.filter(({ experienced }) => experienced).length < rules.experienced) return [];
    if (
      people.some(
        ({ zones }) => post.zone !== null && zones.length > 0 && !zones.includes(post.zone),
      )
    )
      return [];
    const windows = people.flatMap(({ free }) => free.get(shift.outlook.night)?.[0] ?? []);
    if (windows.length < people.length) return [];
    const walk_ms = post.walk_min * MINUTE_MS;
    const from_ms = Math.max(shift.from_ms, ...windows.map((window) => window.from_ms + walk_ms));
    const to_ms = Math.min(shift.to_ms, ...windows.map((window) => window.to_ms - walk_ms));
    if (to_ms - from_ms < leastWatch_min * MINUTE_MS) return [];
    return [{ shift, post, people, worth: gainOf(shift, post, { from_ms, to_ms }, rules.goal) }];
  });
}

function subsets<Item>(items: readonly Item[], size: number): Item[][] {
  if (size === 0) return [[]];
  return items.flatMap((item, index) =>
    subsets(items.slice(index + 1), size - 1).map((rest) => [item, ...rest]),
  );
}

function isAllowed({ rules }: RosterQuestion, crews: readonly Crew[]): boolean {
  const last = crews.at(-1)!;
  if (
    rules.mostPosts !== null &&
    crews.filter(({ shift }) => shift === last.shift).length > rules.mostPosts
  )
    return false;
  return last.people.every((person) => {
    const nights = crews
      .filter(({ people }) => people.includes(person))
      .map(({ shift }) => shift.outlook.night as number);
    return keepsLimits(person, nights);
  });
}

function keepsLimits(
  { sat, backToBack, mostShiftsWeek }: Sitter,
  nights: readonly number[],
): boolean {
  if (new Set(nights).size < nights.length) return false;
  const all = [...sat, ...nights];
  if (!backToBack && nights.some((night) => all.includes(night - 1) || nights.includes(night + 1)))
    return false;
  if (mostShiftsWeek === null) return true;
  // Only weeks in which the plan gives a shift: those before it are as they were.
  return nights.every((night) =>
    Array.from({ length: 7 }, (_, back) => night - back).every(
      (start) => all.filter((one) => one >= start && one < start + 7).length <= mostShiftsWeek,
    ),
  );
}

/** What is wrong with a plan by the rules, in words; pins aside. */
export function wrongsOf(question: RosterQuestion, posts: readonly PlannedPost[]): string[] {
  const wrongs: string[] = [];
  const { rules, sitters } = question;
  for (const { night, watch, post, sitters: names, from_ms, to_ms } of posts) {
    const at = `${post.id} on ${night}`;
    const people = names.map((name) => sitters.find((entry) => entry.name === name)!);
    if (people.length !== rules.crew || new Set(names).size !== rules.crew)
      wrongs.push(`${at}: ${names.length} people`);
    if (people.filter(({ experienced }) => experienced).length < rules.experienced)
      wrongs.push(`${at}: nobody experienced`);
    for (const { name, zones, free } of people) {
      if (zones.length > 0 && post.zone !== null && !zones.includes(post.zone))
        wrongs.push(`${at}: ${name} goes elsewhere`);
      const walk_ms = post.walk_min * MINUTE_MS;
      const isThere = (free.get(night) ?? []).some(
        (window) => window.from_ms + walk_ms <= from_ms && window.to_ms - walk_ms >= to_ms,
      );
      if (!isThere) wrongs.push(`${at}: ${name} is not there from to`);
    }
    const same = posts.filter((entry) => entry.night === night && entry.watch === watch);
    if (same.filter((entry) => entry.post === post).length > 1) wrongs.push(`${at}: kept twice`);
    if (rules.mostPosts !== null && same.length > rules.mostPosts)
      wrongs.push(`${at}: too many posts`);
  }
  for (const person of sitters) {
    const nights = posts
      .filter((entry) => entry.sitters.includes(person.name))
      .map(({ night }) => night as number);
    if (!keepsLimits(person, nights))
      wrongs.push(`${person.name} sits too often: ${nights.join()}`);
  }
  return wrongs;
}
