import { limitsOf } from './limits.ts';
import { listWords } from '../domain/locale.ts';
import type { Opening, Openings } from './openings.ts';
import type { Plan } from './plan.ts';
import { pinnedNights } from './roster-program.ts';
import type { RosterQuestion } from './roster-question.ts';

/** Where the people are who might have sat in one opening, by name. */
export interface Whereabouts {
  /** Nothing but other nights of the plan keeps them. */
  readonly free: readonly string[];
  /** Placed by hand elsewhere on that night. */
  readonly pinned: readonly { readonly name: string; readonly nest: string }[];
  readonly resting: readonly string[];
  readonly weekFull: readonly string[];
  /** Sit elsewhere on that night by the plan. */
  readonly placed: readonly string[];
  /** How many more there are who go to that zone but did not offer that night. */
  readonly notOffered: number;
}

/** Where everybody is, for one opening and the post at it that somebody is missed at. */
export function whereaboutsAt(
  question: RosterQuestion,
  { openings }: Openings,
  plan: Plan,
  { shift, hands, posts }: Opening,
  post: Opening['posts'][number] | null,
): Whereabouts {
  const { night } = shift.outlook;
  const nights = question.nights.map((outlook) => outlook.night);
  const free: string[] = [];
  const pinned: { name: string; nest: string }[] = [];
  const [resting, weekFull, placed]: [string[], string[], string[]] = [[], [], []];
  for (const { sitter: index } of hands) {
    const sitter = question.sitters[index];
    if (sitter === undefined) continue;
    const { name } = sitter;
    const pin = question.pins.find(
      (entry) =>
        entry.night === night && entry.sitter === name && !post?.nests.includes(entry.nest),
    );
    const none = limitsOf(sitter, nights, pinnedNights(question, name)).find(
      ({ nights: within, most }) => most === 0 && within.includes(night),
    );
    const at = plan.posts.some((entry) => entry.night === night && entry.sitters.includes(name));
    if (pin !== undefined) pinned.push({ name, nest: pin.nest });
    else if (none?.because === 'rest') resting.push(name);
    else if (none !== undefined) weekFull.push(name);
    else if (at) placed.push(name);
    else free.push(name);
  }
  const zone = posts[0]?.zone ?? null;
  const offered = new Set(
    openings
      .filter((opening) => opening.shift.outlook.night === night)
      .flatMap((opening) => opening.hands.map(({ sitter }) => sitter)),
  );
  const notOffered = question.sitters.filter(
    ({ zones }, index) =>
      !offered.has(index) && (zone === null || zones.length === 0 || zones.includes(zone)),
  ).length;
  return { free, pinned, resting, weekFull, placed, notOffered };
}

/** Where the others are, in one sentence; empty when there is nothing to say. */
export function whereaboutsWords(where: Whereabouts): string {
  const { pinned, resting, weekFull, placed, notOffered } = where;
  const parts = [
    ...pinned.map(({ name, nest }) => `${name} is pinned to ${nest}`),
    ...(resting.length > 0 ? [`${listWords(resting)} sat the night before`] : []),
    ...(weekFull.length > 0 ? [`${listWords(weekFull)} ${has(weekFull)} no shift left`] : []),
    ...(placed.length > 0
      ? [
          `${listWords(placed)} ${placed.length === 1 ? /* @wc-include */ 'sits' : /* @wc-include */ 'sit'} elsewhere`,
        ]
      : []),
    ...(notOffered > 0 ? [`${notOffered} more did not offer this night`] : []),
  ];
  return parts.length === 0 ? '' : ` ${capital(parts.join('; '))}.`;
}

function has(names: readonly string[]): string {
  return names.length === 1 ? /* @wc-include */ 'has' : /* @wc-include */ 'have';
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
