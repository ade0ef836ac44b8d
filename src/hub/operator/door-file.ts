import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod/mini';

const Door = z.object({ port: z.int(), secret: z.string() });
/** Where the door of a running hub is, and the secret that opens it. */
export type Door = z.infer<typeof Door>;

const pathIn = (folder: string): string => join(folder, 'operator.json');

/** Leaves word in the folder of a hub, for its own account alone. */
export async function writeDoor(folder: string, door: Door): Promise<void> {
  await removeDoor(folder);
  await writeFile(pathIn(folder), JSON.stringify(door), { mode: 0o600, flag: 'wx' });
}

export function removeDoor(folder: string): Promise<void> {
  return rm(pathIn(folder), { force: true });
}

/** Null when no hub has left word. */
export async function readDoor(folder: string): Promise<Door | null> {
  try {
    const read = Door.safeParse(JSON.parse(await readFile(pathIn(folder), 'utf8')));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}
