import type { LogProblem } from '../../core/log/event-log.ts';

/** The problems of the browser's store that have a name of their own. */
export const problems = {
  full: {
    kind: 'full',
    message:
      'This device has no room left for the record. Nothing that was saved before is lost, but this was not saved. Save a backup (Programme, Take out), free space on the device, and do it again.',
  },
  blocked: {
    kind: 'blocked',
    message:
      'Another tab has an older version of this page open, and the record cannot be opened beside it. Close the other tabs of this page; nothing is lost.',
  },
  outdated: {
    kind: 'outdated',
    message:
      'A newer version of this page has opened the record. Reload this page to go on; what was saved is there.',
  },
  closed: {
    kind: 'closed',
    message: 'This record has been closed. Open the page again to go on; nothing is lost.',
  },
  shut: {
    kind: 'closed',
    message:
      'The browser has shut the record and does not open it again. Reload the page. What was reported as saved is there; what was not is still to be saved.',
  },
  erased: {
    kind: 'closed',
    message:
      'The data of this page were erased on this device, by the browser or in another tab. What is on this screen is all there is: save a backup now (Programme, Take out), then reload the page and bring it back in.',
  },
  missing: {
    kind: 'failed',
    message:
      'This browser keeps no data for this page, so nothing can be saved. A private window or a setting that blocks site data does that: open the page in an ordinary window, or allow this site to keep data.',
  },
} as const satisfies Record<string, LogProblem>;

/** What a failure of IndexedDB means for the record, and what to do about it. */
export function problemOfStore(error: unknown): LogProblem {
  const name = nameOf(error);
  switch (name) {
    case 'QuotaExceededError':
      return problems.full;
    case 'VersionError':
      return problems.outdated;
    case 'SecurityError':
    case 'NotAllowedError':
      return problems.missing;
    case 'InvalidStateError':
      return problems.shut;
    default: {
      const said = error instanceof Error ? error.message : String(error);
      return {
        kind: 'failed',
        message: `The browser could not use its store (${name}: ${said}). Nothing of this was saved. Do it again; if it fails again, save a backup and reload the page.`,
      };
    }
  }
}

/** The name of a failure, such as `AbortError`. */
export function nameOf(error: unknown): string {
  const isNamed = typeof error === 'object' && error !== null && 'name' in error;
  return isNamed ? String(error.name) : 'unknown';
}
