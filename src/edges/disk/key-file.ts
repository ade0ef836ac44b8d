import { chmod, readFile, rename, writeFile } from 'node:fs/promises';
import * as z from 'zod/mini';

/** What a device holds to come in by: its key, and as whom the hub knows it. */
export const HubKey = z.object({
  hub: z.string(),
  key: z.string().check(z.minLength(1)),
  person: z.string(),
  device: z.string(),
});
export type HubKey = z.infer<typeof HubKey>;

export type KeyFound =
  | { readonly state: 'key'; readonly key: HubKey }
  /** The file holds an invitation, or a bare key, as text. */
  | { readonly state: 'text'; readonly text: string }
  | { readonly state: 'unreadable'; readonly message: string };

/** Reads a key file: the key as `writeKey` wrote it, or one line of text that somebody put there. */
export async function readKey(path: string): Promise<KeyFound> {
  let text: string;
  try {
    text = (await readFile(path, 'utf8')).trim();
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { state: 'unreadable', message: `${path} could not be read (${why}).` };
  }
  if (!text.startsWith('{')) return { state: 'text', text };
  try {
    const read = HubKey.safeParse(JSON.parse(text));
    if (read.success) return { state: 'key', key: read.data };
  } catch {
    // Told below.
  }
  const message = `${path} is not a key file: expected a key, or an invitation link on one line.`;
  return { state: 'unreadable', message };
}

/** Writes a key so that only its owner can read it. */
export async function writeKey(path: string, key: HubKey): Promise<void> {
  const beside = `${path}.new`;
  await writeFile(beside, `${JSON.stringify(key)}\n`, { mode: 0o600 });
  await chmod(beside, 0o600);
  await rename(beside, path);
}
