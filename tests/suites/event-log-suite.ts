import { describe, test } from 'vitest';
import { type LogPlace, eventLogCases } from './event-log-cases.ts';

/** Every log must pass these. `place` gives a fresh place for each case. */
export function eventLogSuite(what: string, place: () => Promise<LogPlace>): void {
  describe(`the log ${what}`, () => {
    test.each(eventLogCases.map((logCase) => [logCase.name, logCase] as const))(
      '%s',
      async (_, logCase) => {
        const fresh = await place();
        if (fresh.isShared || !logCase.needsSharing) await logCase.run(fresh);
      },
    );
  });
}
