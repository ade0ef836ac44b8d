/** False in a worker, which hears of changes by BroadcastChannel alone. */
const hasPage = typeof document !== 'undefined';

/**
 * Word from one holder of a record to the others on this device: other tabs, and other parts of
 * this page. By BroadcastChannel; where there is none, by a key of localStorage, which reaches other
 * tabs only.
 */
export class ChangeSignal {
  readonly #name: string;
  readonly #heard: () => void;
  readonly #channel: BroadcastChannel | null;
  #sent = 0;

  constructor(name: string, heard: () => void) {
    this.#name = `firstdark changed: ${name}`;
    this.#heard = heard;
    this.#channel =
      typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(this.#name);
    this.#channel?.addEventListener('message', heard);
    if (!hasPage) return;
    if (this.#channel === null) window.addEventListener('storage', this.#stored);
    document.addEventListener('visibilitychange', this.#shown);
  }

  send(): void {
    if (this.#channel !== null) this.#channel.postMessage('changed');
    else {
      this.#sent += 1;
      // A store that is full or forbidden loses only this word; the others see it when next shown.
      try {
        localStorage.setItem(this.#name, `${Date.now()} ${this.#sent}`);
      } catch {
        return;
      }
    }
  }

  close(): void {
    this.#channel?.close();
    if (!hasPage) return;
    window.removeEventListener('storage', this.#stored);
    document.removeEventListener('visibilitychange', this.#shown);
  }

  readonly #stored = (event: Event): void => {
    if ('key' in event && event.key === this.#name) this.#heard();
  };

  /** A page that was asleep has missed what was said; look once it is shown again. */
  readonly #shown = (): void => {
    if (document.visibilityState === 'visible') this.#heard();
  };
}
