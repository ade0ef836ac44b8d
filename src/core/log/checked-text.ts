import type { SeasonEvent } from '../domain/event.ts';

/**
 * Events that were checked, as one text: their JSON one after another, with commas between. Two such
 * texts put together with a comma are one again.
 */
export function checkedText(events: readonly SeasonEvent[]): string {
  return JSON.stringify(events).slice(1, -1);
}

/**
 * The events in a text that `checkedText` made, as they were. They are not checked again, which is
 * what takes long in reading a season: for texts that never left this version of the app. Throws a
 * SyntaxError when the text is damaged.
 */
export function eventsInText(text: string): readonly SeasonEvent[] {
  // eslint-disable-next-line @typescript-eslint/no-unsafe-return -- was checked when it was written
  return JSON.parse(`[${text}]`);
}
