import { whyBeyondJson } from '../../core/log/beyond-json.ts';
import { type LoggedEvent } from '../../core/log/event-log.ts';
import { rawOf, readEvent } from '../../core/log/upcast.ts';

/**
 * The event on a line; null when the line is empty. A damaged line is kept as it is, as foreign, and so
 * is one that is nested too deep to be written again from what was read.
 */
export function eventOfLine(line: string): LoggedEvent | null {
  const text = line.replace(/^\uFEFF/, '').trimEnd();
  if (text === '') return null;
  return readEvent(parsed(text) ?? text);
}

/** The line for an event, with its end. A damaged line goes back as the text it was. */
export function lineOf(logged: LoggedEvent): string {
  const raw = rawOf(logged);
  return `${JSON.stringify(raw)}\n`;
}

function parsed(text: string): unknown {
  try {
    const json: unknown = JSON.parse(text);
    return whyBeyondJson(json) === null ? json : null;
  } catch {
    return null;
  }
}
