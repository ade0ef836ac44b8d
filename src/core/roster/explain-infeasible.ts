import { dutiesFor, handClasses } from './hand-classes.ts';
import { listWords } from '../domain/locale.ts';
import { nightWords } from './night-words.ts';
import type { Opening, Openings, PlacedPin } from './openings.ts';
import type { Plan, Unmet } from './plan.ts';
import type { RosterQuestion } from './roster-question.ts';
import { whereaboutsAt, whereaboutsWords } from './whereabouts.ts';

/** Why each of some pins could not be kept: which night, who is missing, and what to do. */
export function explainPins(
  question: RosterQuestion,
  found: Openings,
  plan: Plan,
  unmet: ReadonlySet<number>,
): Unmet[] {
  return [...unmet].flatMap((index): Unmet[] => {
    const placed = found.pins[index];
    if (placed === undefined) return [];
    const { night, watch, nest } = placed.pin;
    const why = whyBroken(question, found, plan, placed);
    const text = `Night of ${nightWords(night)}, ${placed.post?.id ?? nest}: ${why}`;
    return [{ night, watch, post: placed.post?.id ?? nest, text }];
  });
}

function whyBroken(
  question: RosterQuestion,
  found: Openings,
  plan: Plan,
  { pin, opening: index, post, sitter }: PlacedPin,
): string {
  const { crew, experienced, mostPosts } = question.rules;
  const opening = index === null ? undefined : found.openings[index];
  if (opening === undefined || post === null) {
    return `nest ${pin.nest} is not to be watched on that night: it has come up, is gone, or is not on record. Release the pin.`;
  }
  if (pin.sitter !== null && sitter === null) {
    return `${pin.sitter} is not on the list of people. Add them, or release the pin.`;
  }
  const sameNight = question.pins.filter((other) => other.night === pin.night);
  const elsewhere = sameNight.find(
    (other) =>
      other.sitter !== null &&
      other.sitter === pin.sitter &&
      (other.watch !== pin.watch || !post.nests.includes(other.nest)),
  );
  if (elsewhere !== undefined) {
    return `${pin.sitter ?? ''} is pinned to ${elsewhere.nest} too. Release one of the two.`;
  }
  const here = sameNight.filter(
    ({ watch, nest, sitter: name }) =>
      watch === pin.watch && post.nests.includes(nest) && name !== null,
  );
  const names = [...new Set(here.flatMap(({ sitter: name }) => name ?? []))];
  if (names.length > crew) {
    return `${listWords(names)} are pinned there, and a post takes ${crew}. Release one of them.`;
  }
  const isSkilled = (name: string): boolean =>
    question.sitters.some((entry) => entry.name === name && entry.experienced);
  const where = whereaboutsAt(question, found, plan, opening, post);
  const others = where.free.filter((name) => !names.includes(name));
  const seats = crew - names.length;
  const wanted = experienced - names.filter(isSkilled).length;
  const away = whereaboutsWords(where);
  if (wanted > seats) {
    return `a post needs ${experienced} trained or lead, and ${listWords(names)} ${are(names)} neither. Release one of them.`;
  }
  if (others.length < seats) {
    return `${missing(seats - others.length, others, names)}${away} Ask one of them, or release the pin.`;
  }
  if (others.filter(isSkilled).length < wanted) {
    return `nobody trained or lead is free to sit there.${away} Ask somebody who is, or release the pin.`;
  }
  const pinnedPosts = new Set(
    sameNight
      .filter(({ watch }) => watch === pin.watch)
      .map(({ nest }) => question.posts.find(({ nests }) => nests.includes(nest))?.id ?? nest),
  );
  if (mostPosts !== null && pinnedPosts.size > mostPosts) {
    return `${pinnedPosts.size} posts are pinned, and no more than ${mostPosts} are to be kept at once. Release one, or allow more.`;
  }
  if (dutiesFor(handClasses(question, opening), question).length === 0) {
    return `no ${crew} people are on the beach at the same time.${away} Ask one of them to stay longer, or release the pin.`;
  }
  return `the people who could sit there are needed for what is pinned on this night and those beside it.${away} Release one of the pins, or ask somebody more.`;
}

function missing(count: number, free: readonly string[], pinned: readonly string[]): string {
  const who = count === 1 ? 'one more person is' : `${count} more people are`;
  const there = [
    ...(pinned.length > 0 ? [`${listWords(pinned)} ${are(pinned)} pinned there`] : []),
    free.length > 0 ? `${listWords(free)} ${are(free)} free` : 'nobody else is free',
  ];
  return `${who} needed: ${there.join(', ')}.`;
}

/** The watches in which posts are worth keeping and none is: who is there, and who is missing. */
export function explainShortage(question: RosterQuestion, found: Openings, plan: Plan): Unmet[] {
  return found.shifts.flatMap((shift): Unmet[] => {
    const here = found.openings.filter((opening) => opening.shift === shift);
    const { night } = shift.outlook;
    const isKept = plan.posts.some((post) => post.night === night && post.watch === shift.watch);
    if (here.length === 0 || isKept) return [];
    const why = whyShort(question, found, plan, here);
    const which = shift.watch === 'late' ? ', late watch' : '';
    return [
      {
        night,
        watch: shift.watch,
        post: null,
        text: `Night of ${nightWords(night)}${which}: ${why}`,
      },
    ];
  });
}

function whyShort(
  question: RosterQuestion,
  found: Openings,
  plan: Plan,
  here: readonly Opening[],
): string {
  const { crew, experienced } = question.rules;
  const all = here.map((opening) => whereaboutsAt(question, found, plan, opening, null));
  const free = [...new Set(all.flatMap((where) => where.free))];
  const away = all[0] === undefined || all.length > 1 ? '' : whereaboutsWords(all[0]);
  if (free.length === 0) return `nobody is free.${away}`;
  if (free.length < crew)
    return `only ${listWords(free)} is free, and a post needs ${crew}.${away}`;
  const skilled = question.sitters.filter(
    (sitter) => sitter.experienced && free.includes(sitter.name),
  );
  if (skilled.length < experienced) {
    return `${listWords(free)} are free, and none of them is trained or lead.${away}`;
  }
  const canMeet = here.some(
    (opening) => dutiesFor(handClasses(question, opening), question).length > 0,
  );
  if (!canMeet) return `no ${crew} who are free can be at one post at the same time.${away}`;
  return `nobody sits. ${listWords(free)} could, and bring more on the nights beside it.`;
}

/** Pins that hold although the person had said otherwise, so that the lead knows to ask. */
export function noticesOf(question: RosterQuestion, found: Openings, plan: Plan): Unmet[] {
  return found.pins.flatMap(({ pin, post, sitter }): Unmet[] => {
    const person = sitter === null ? undefined : question.sitters[sitter];
    const isKept = plan.posts.some(
      (entry) =>
        entry.night === pin.night &&
        entry.watch === pin.watch &&
        entry.post === post &&
        entry.sitters.includes(pin.sitter ?? ''),
    );
    if (person === undefined || post === null || !isKept) return [];
    const { name, free, zones, sat, backToBack } = person;
    const said = [
      ...((free.get(pin.night) ?? []).length === 0 ? ['has not offered this night'] : []),
      ...(post.zone !== null && zones.length > 0 && !zones.includes(post.zone)
        ? [`does not sit in ${post.zone}`]
        : []),
      ...(!backToBack && sat.includes((pin.night - 1) as typeof pin.night)
        ? ['sat the night before']
        : []),
    ];
    if (said.length === 0) return [];
    const text = `Night of ${nightWords(pin.night)}, ${post.id}: ${name} is pinned there and ${listWords(said)}. Ask them.`;
    return [{ night: pin.night, watch: pin.watch, post: post.id, text }];
  });
}

function are(names: readonly string[]): string {
  return names.length === 1 ? /* @wc-include */ 'is' : /* @wc-include */ 'are';
}
