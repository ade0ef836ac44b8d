import type { Openings } from './openings.ts';
import type { Plan } from './plan.ts';

/** The pins that a plan does not keep, by index. */
export function brokenPins({ posts }: Plan, { pins }: Pick<Openings, 'pins'>): number[] {
  return pins.flatMap(({ pin, post }, index) => {
    const isKept = posts.some(
      (entry) =>
        entry.night === pin.night &&
        entry.watch === pin.watch &&
        entry.post.id === post?.id &&
        (pin.sitter === null || entry.sitters.includes(pin.sitter)),
    );
    return isKept ? [] : [index];
  });
}
