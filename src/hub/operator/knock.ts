import * as z from 'zod/mini';
import type { Outcome } from '../turned-away.ts';
import { readDoor } from './door-file.ts';
import type { Order } from './operate.ts';

const Answered = z.discriminatedUnion('ok', [
  z.object({ ok: z.literal(true), value: z.unknown() }),
  z.object({
    ok: z.literal(false),
    no: z.object({
      status: z.literal([400, 401, 403, 404, 409, 413, 415, 429, 500, 503]),
      code: z.string(),
      message: z.string(),
    }),
  }),
]);

/** Hands an order to the hub that runs on a folder; null when none does. */
export async function knock(folder: string, order: Order): Promise<Outcome<unknown> | null> {
  const door = await readDoor(folder);
  if (door === null) return null;
  let response: Response;
  try {
    response = await fetch(`http://127.0.0.1:${door.port}/`, {
      method: 'POST',
      headers: { authorization: `Bearer ${door.secret}`, 'content-type': 'application/json' },
      body: JSON.stringify(order),
    });
  } catch {
    return null;
  }
  return Answered.parse(await response.json());
}
