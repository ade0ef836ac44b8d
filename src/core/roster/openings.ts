import type { Watch } from '../domain/visit.ts';
import { gainOf, timeAtPost } from './gain.ts';
import type { Pin, Post, RosterQuestion, Sitter } from './roster-question.ts';
import { leastChance } from './roster-rules.ts';
import { type Shift, shiftsOf } from './watches.ts';

/** Somebody who can sit at the posts of one zone in one watch. */
export interface Hand {
  /** Index among the sitters of the question. */
  readonly sitter: number;
  /** On the beach from and to; infinite where that does not bind. */
  readonly duty: Watch;
}

/** The posts of one zone that are worth keeping in one watch, and who can sit there. */
export interface Opening {
  readonly shift: Shift;
  readonly posts: readonly Post[];
  readonly hands: readonly Hand[];
}

/** A pin with what it speaks of; `post` null: no post holds its nest on that night. */
export interface PlacedPin {
  readonly pin: Pin;
  readonly opening: number | null;
  readonly post: Post | null;
  /** Index of the sitter; null when the pin names none, or nobody who is known. */
  readonly sitter: number | null;
}

/** What a plan can be made of. */
export interface Openings {
  readonly shifts: readonly Shift[];
  readonly openings: readonly Opening[];
  readonly pins: readonly PlacedPin[];
}

/**
 * Every watch by zone, with the posts worth keeping and the people who can sit there. What the lead
 * pinned is among them whatever the odds, the person's zones and what they said of that night.
 */
export function openingsOf(question: RosterQuestion): Openings {
  const shifts = shiftsOf(question.nights, question.rules, question.zone);
  const openings: Opening[] = [];
  const pins: PlacedPin[] = [];
  for (const shift of shifts) {
    const here = question.pins.filter(
      ({ night, watch }) => night === shift.outlook.night && watch === shift.watch,
    );
    const worth = question.posts.filter((post) => isWorth(shift, post) || holdsPin(post, here));
    for (const zone of new Set(worth.map((post) => post.zone))) {
      const posts = worth.filter((post) => post.zone === zone);
      const pinned = new Set(
        here
          .filter((pin) => posts.some((post) => holdsPin(post, [pin])))
          .map(({ sitter }) => sitter),
      );
      const hands = question.sitters.flatMap((sitter, index) =>
        handOf(sitter, index, shift, zone, posts, pinned.has(sitter.name)),
      );
      openings.push({ shift, posts, hands });
    }
    for (const pin of here) pins.push(placed(pin, openings, shift, question.sitters));
  }
  return { shifts, openings, pins };
}

function isWorth(shift: Shift, post: Post): boolean {
  return gainOf(shift, post, shift, 'boils') >= leastChance;
}

function holdsPin({ nests }: Post, pins: readonly Pin[]): boolean {
  return pins.some(({ nest }) => nests.includes(nest));
}

function handOf(
  { free, zones }: Sitter,
  sitter: number,
  shift: Shift,
  zone: string | null,
  posts: readonly Post[],
  isPinned: boolean,
): Hand[] {
  const goesThere = zone === null || zones.length === 0 || zones.includes(zone);
  if (!goesThere && !isPinned) return [];
  const windows = free.get(shift.outlook.night) ?? [];
  const farthest_min = Math.max(...posts.map(({ walk_min }) => walk_min));
  const duties = windows
    .map((window) => bindingPart(window, shift, farthest_min))
    .filter((duty) => posts.some((post) => timeAtPost(shift, post, duty) !== null))
    .sort((a, b) => lengthIn(shift, b) - lengthIn(shift, a));
  const duty = duties[0] ?? (isPinned ? { from_ms: -Infinity, to_ms: Infinity } : null);
  return duty === null ? [] : [{ sitter, duty }];
}

/** A window with its ends opened where somebody would be at every post in time, so that equal ones are. */
function bindingPart({ from_ms, to_ms }: Watch, shift: Shift, farthest_min: number): Watch {
  const walk_ms = farthest_min * 60_000;
  return {
    from_ms: from_ms + walk_ms <= shift.from_ms ? -Infinity : from_ms,
    to_ms: to_ms - walk_ms >= shift.to_ms ? Infinity : to_ms,
  };
}

function lengthIn(shift: Shift, { from_ms, to_ms }: Watch): number {
  return Math.min(shift.to_ms, to_ms) - Math.max(shift.from_ms, from_ms);
}

function placed(
  pin: Pin,
  openings: readonly Opening[],
  shift: Shift,
  sitters: readonly Sitter[],
): PlacedPin {
  const opening = openings.findIndex(
    (entry) => entry.shift === shift && entry.posts.some((post) => holdsPin(post, [pin])),
  );
  const post = openings[opening]?.posts.find((entry) => holdsPin(entry, [pin])) ?? null;
  const sitter = sitters.findIndex(({ name }) => name === pin.sitter);
  return {
    pin,
    opening: opening < 0 ? null : opening,
    post,
    sitter: sitter < 0 ? null : sitter,
  };
}
