import * as z from 'zod/mini';

const Place = z.tuple([z.int().check(z.positive()), z.string()]);

const Cursor = z.object({
  programme: z.string(),
  /** By team: the place of the last event that was read, and its id. */
  teams: z.record(z.string(), Place),
});
/** Up to where a device has read. */
export type Cursor = z.infer<typeof Cursor>;

/** A cursor as devices keep it: opaque to them. */
export function writeCursor(cursor: Cursor): string {
  return Buffer.from(JSON.stringify(cursor)).toString('base64url');
}

/** Null when it is no cursor of ours. */
export function readCursor(text: string): Cursor | null {
  try {
    const read = Cursor.safeParse(JSON.parse(Buffer.from(text, 'base64url').toString('utf8')));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}
