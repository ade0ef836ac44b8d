import { whyBeyondJson } from '../../core/log/beyond-json.ts';
import type { LoggedEvent } from '../../core/log/event-log.ts';
import { rawOf, readEvent } from '../../core/log/upcast.ts';

/** A whole record as JSON Lines, one event a line, foreign ones as they lie there. */
export function backupText(events: readonly LoggedEvent[]): string {
  return events.map((event) => `${JSON.stringify(rawOf(event))}\n`).join('');
}

/** What a backup holds: its events, and the numbers of the lines that are not JSON. */
export interface ReadBackup {
  readonly events: readonly LoggedEvent[];
  readonly torn: readonly number[];
}

/**
 * Reads JSON Lines. A line that is not JSON (a copy that broke off), or could not be backed up again as
 * it stands (nested deeper than any event, a number too large), is numbered and left out.
 */
export function readBackup(text: string): ReadBackup {
  const events: LoggedEvent[] = [];
  const torn: number[] = [];
  text.split(/\r?\n/).forEach((line, index) => {
    if (line.trim() === '') return;
    try {
      const json: unknown = JSON.parse(line);
      if (whyBeyondJson(json) !== null) torn.push(index + 1);
      else events.push(readEvent(json));
    } catch {
      torn.push(index + 1);
    }
  });
  return { events, torn };
}
