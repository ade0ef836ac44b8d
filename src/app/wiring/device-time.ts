import type { TimeSource } from '../state/clock.svelte.ts';

const MINUTE_MS = 60_000;

/** The device's clock. It ticks on the minute, only while the page is seen, to spare the battery. */
export const deviceTime: TimeSource = {
  now_ms: () => Date.now(),
  everyMinute(tick) {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const wait = (): void => {
      clearTimeout(timer);
      if (document.hidden) return;
      timer = setTimeout(
        () => {
          tick();
          wait();
        },
        MINUTE_MS - (Date.now() % MINUTE_MS),
      );
    };
    const seenAgain = (): void => {
      if (!document.hidden) tick();
      wait();
    };
    document.addEventListener('visibilitychange', seenAgain);
    wait();
    return () => {
      clearTimeout(timer);
      document.removeEventListener('visibilitychange', seenAgain);
    };
  },
};
