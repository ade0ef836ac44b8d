import { SCHEMA, type EventOf } from '../../domain/event.ts';
import { formatInstant } from '../../domain/instant.ts';
import { Programme } from '../../domain/programme.ts';
import { eventIdOfRow } from '../../log/event-id.ts';
import { whyBeyondJson } from '../../log/beyond-json.ts';
import { decode } from '../decode.ts';
import type { Problem } from '../problem.ts';
import { UNDATED_MS } from './row-event.ts';

export const PROGRAMME_FILE = 'programme.json';

export type ReadProgramme =
  | { readonly ok: true; readonly programme: Programme; readonly text: string }
  | { readonly ok: false; readonly problem: Problem };

/** The programme that `programme.json` describes; keys it does not know are kept. */
export function readProgramme(bytes: Uint8Array): ReadProgramme {
  return readProgrammeText(decode(bytes).text);
}

/** As `readProgramme`, from text. */
export function readProgrammeText(text: string): ReadProgramme {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : 'not JSON';
    return refused('', `it is not JSON (${why}); expected {"name": …, "time_zone": …}. Mend it.`);
  }
  const beyond = whyBeyondJson(json);
  if (beyond !== null) {
    return refused('', `${beyond}; expected {"name": …, "time_zone": …}. Mend it.`);
  }
  const read = Programme.safeParse(json);
  if (read.success) return { ok: true, programme: read.data, text };
  const issue = read.error.issues[0];
  const place = issue?.path.join('.') ?? '';
  const value = valueAt(json, issue?.path ?? []);
  const found = value === undefined ? 'nothing' : JSON.stringify(value);
  const message = `found ${found.slice(0, 80)}; expected ${issue?.message ?? 'a programme'}. The file is left out until it is mended.`;
  return refused(place, message);
}

function refused(column: string, message: string): ReadProgramme {
  return {
    ok: false,
    problem: { file: PROGRAMME_FILE, row: 0, column, message, severity: 'error' },
  };
}

function valueAt(json: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      value !== null && typeof value === 'object'
        ? new Map<PropertyKey, unknown>(Object.entries(value)).get(String(key))
        : undefined,
    json,
  );
}

/** The event that describes a programme, from the start unless `at_ms` says otherwise. */
export function programmeEvent(
  { programme, text }: { readonly programme: Programme; readonly text: string },
  who: { readonly zone: string; readonly author: string; readonly device: string },
  at_ms = UNDATED_MS,
): EventOf<'programme-described'> {
  const at = formatInstant(at_ms, who.zone);
  return {
    id: eventIdOfRow(at_ms, JSON.stringify(['programme', programme])),
    schema: SCHEMA,
    at,
    written: at,
    author: who.author,
    device: who.device,
    source: { row: 0, text: { [PROGRAMME_FILE]: text } },
    kind: 'programme-described',
    programme,
  };
}
