import type { Attachment } from 'svelte/attachments';

/** Tells the width of an element, CSS pixels, now and whenever it changes; for drawings to scale. */
export function measuredWidth(told: (width_px: number) => void): Attachment<HTMLElement> {
  return (element) => {
    const measure = (): void => {
      if (element.clientWidth > 0) told(element.clientWidth);
    };
    measure();
    if (typeof ResizeObserver === 'undefined') return undefined;
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => {
      observer.disconnect();
    };
  };
}
