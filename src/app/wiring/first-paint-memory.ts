import type { DarkMemory } from '../state/dark-memory.ts';

/** The key that `public/first-paint.js` reads. */
const KEY = 'firstdark-dark';

/** Leaves the dark hours where the next start finds them before anything is drawn. */
export function rememberForFirstPaint(memory: DarkMemory): void {
  // Writing takes a while on a slow phone: what has just changed is drawn before.
  setTimeout(() => {
    try {
      localStorage.setItem(KEY, JSON.stringify(memory));
    } catch {
      // Storage is closed or full: the first paint goes by the system's wish, the app by its own.
    }
  });
}
