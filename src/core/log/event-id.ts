import { stringify, v5, v7 } from 'uuid';
import type { EventId } from '../domain/event.ts';

/** A UUIDv7 (RFC 9562) from the moment of writing and 16 random bytes; both are arguments. */
export function newEventId(written_ms: number, random: Uint8Array): EventId {
  return v7({ msecs: written_ms, random }) as EventId;
}

/** Namespace of the ids below; drawn once. */
const ROWS = '5b0c1d8e-93a7-4c57-9a4e-2f6d1c7b8a30';

/**
 * The id of an event read from a table: the same row gives the same id on every device, so that
 * importing twice adds nothing. A UUIDv7 in form: the time it happened, then 74 bits of the SHA-1
 * (UUIDv5) of what the row says.
 */
export function eventIdOfRow(at_ms: number, content: string): EventId {
  const digest = v5(content, ROWS, new Uint8Array(16));
  const bytes = Uint8Array.from(digest);
  let rest = Math.max(0, at_ms);
  for (let index = 5; index >= 0; index--) {
    bytes[index] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes[6] = 0x70 | (bytes[6]! & 0x0f);
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  return stringify(bytes) as EventId;
}
