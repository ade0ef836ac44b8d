import { saysTheSame } from '../../core/log/same-event.ts';

/**
 * Whether two bodies under one id are one note: they may differ in who wrote it where and when, as
 * the same row of a table does when two people import it (its id is made from what it says).
 */
export function isSameNote(a: unknown, b: unknown): boolean {
  return saysTheSame(a, b) || saysTheSame(withoutWriter(a), withoutWriter(b));
}

const WRITER = new Set(['author', 'device', 'source', 'written']);

function withoutWriter(body: unknown): unknown {
  if (typeof body !== 'object' || body === null) return body;
  return Object.fromEntries(Object.entries(body).filter(([key]) => !WRITER.has(key)));
}
