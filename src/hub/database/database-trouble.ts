import * as z from 'zod/mini';
import type { TurnedAway } from '../turned-away.ts';

const WithCode = z.looseObject({ code: z.string() });

/** The code of an error: five characters of PostgreSQL, or a word of the driver or the system. */
export function codeOf(error: unknown): string | null {
  const read = WithCode.safeParse(error);
  return read.success ? read.data.code : null;
}

/** The database was not heard for too long. */
export class DatabaseSilent extends Error {
  readonly code = 'DATABASE_SILENT';
}

/** The connection is gone, or goes with the server. PostgreSQL, appendix A: classes 08 and 57P. */
const LOST = new Set([
  ...['CONNECTION_CLOSED', 'CONNECTION_ENDED', 'CONNECTION_DESTROYED', 'CONNECT_TIMEOUT'],
  ...['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT', 'EHOSTUNREACH', 'ENETUNREACH'],
  ...['ENOTFOUND', 'EAI_AGAIN', 'ENOENT', 'ECONNABORTED'],
  ...['08000', '08001', '08003', '08004', '08006', '57P01', '57P02'],
]);

/** The server is not up yet, has become a replica, or has no connection left. */
const NOT_READY = new Set(['57P03', '25006', '53300']);

/** Two transactions were in each other's way: serialization failure, deadlock, a lock not had in time. */
const IN_THE_WAY = new Set(['40001', '40P01', '55P03']);

/** Whether the connection on which this happened is of no more use. */
export function isLost(error: unknown): boolean {
  return LOST.has(codeOf(error) ?? '');
}

/** Whether the same transaction may well succeed a moment later. */
export function isPassing(error: unknown): boolean {
  const code = codeOf(error) ?? '';
  return LOST.has(code) || NOT_READY.has(code) || IN_THE_WAY.has(code);
}

/** PostgreSQL: disk full, out of memory for it, could not extend or write a file. */
const FULL = new Set(['53100', '53200', 'ENOSPC', 'EDQUOT']);
const FULL_TEXT = /No space left on device|could not (?:extend|write)/i;

/** What to answer when the database failed; null when that is not what went wrong. */
export function databaseTrouble(error: unknown): TurnedAway | null {
  const code = codeOf(error);
  if (
    (code !== null && FULL.has(code)) ||
    (error instanceof Error && FULL_TEXT.test(error.message))
  ) {
    return {
      status: 503,
      code: 'full',
      message:
        'The disk of the hub is full, so it keeps nothing new. Everything stays on the device; whoever runs the hub must free some space.',
      wait_s: 60,
    };
  }
  if (isPassing(error) || code === 'DATABASE_SILENT' || code === '57014') {
    return {
      status: 503,
      code: 'database away',
      message:
        'The database of the hub does not answer. Everything stays on the device and is sent again by itself.',
      wait_s: 5,
    };
  }
  return null;
}
