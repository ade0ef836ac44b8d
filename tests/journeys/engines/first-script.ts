/** Runs first in a page: the device's clock is so many milliseconds ahead of this machine's. */
export function shiftClock(ahead_ms: number): void {
  const RealDate = Date;
  const clock = { ahead_ms };
  class ShiftedDate extends RealDate {
    constructor(...given: readonly unknown[]) {
      if (given.length === 0) super(ShiftedDate.now());
      else super(...(given as [number]));
    }
    static override now(): number {
      return RealDate.now() + clock.ahead_ms;
    }
  }
  // Called without `new` it gives a text, as the real one does.
  const callable = new Proxy(ShiftedDate, {
    apply: () => new ShiftedDate().toString(),
  });
  Object.assign(window, { Date: callable, journeyClock: clock });
}

/** Runs first in a page: tells of errors, as Playwright's `console` and `pageerror` do. */
export function tellOfErrors(where: string): void {
  const tell = (text: string): void => {
    navigator.sendBeacon(where, text);
  };
  const { error } = console;
  console.error = (...said: readonly unknown[]) => {
    tell(said.map(String).join(' '));
    error.apply(console, [...said]);
  };
  window.addEventListener('error', (event) => {
    // Measured again in the next frame (CSS Resize Observer, 3.4.6); Playwright tells of none either.
    if (event.message.startsWith('ResizeObserver loop')) return;
    tell(`uncaught: ${event.message}`);
  });
  window.addEventListener('unhandledrejection', (event) => {
    tell(`uncaught: ${String(event.reason)}`);
  });
  document.addEventListener('securitypolicyviolation', (event) => {
    tell(`refused by the security policy: ${event.violatedDirective} ${event.blockedURI}`);
  });
}

/** Runs first in a page: the languages of the device. */
export function speak(languages: readonly string[]): void {
  Object.defineProperty(Navigator.prototype, 'languages', { get: () => languages });
  Object.defineProperty(Navigator.prototype, 'language', { get: () => languages[0] });
}
