import { formatInstant } from '../domain/instant.ts';
import type { Night } from '../domain/night.ts';
import { nightText } from '../domain/night-text.ts';
import type { Plan } from './plan.ts';

/** `21:00` on the clocks of a zone, to the minute. */
export function clockWords(at_ms: number, zone: string): string {
  return formatInstant(Math.round(at_ms / 60_000) * 60_000, zone).slice(11, 16);
}

/** A plan as text to paste into a message, night by night. */
export function planText({ posts }: Plan, nights: readonly Night[], zone: string): string {
  return nights
    .map((night) => {
      const here = posts.filter((post) => post.night === night);
      const lines = here.map(
        ({ from_ms, to_ms, post, sitters }) =>
          `${clockWords(from_ms, zone)}-${clockWords(to_ms, zone)} ${post.id}: ${sitters.join(', ')}`,
      );
      return [nightText(night), ...(lines.length === 0 ? ['nobody sits'] : lines)].join('\n');
    })
    .join('\n\n');
}
