import { describe, expect, test, vi } from 'vitest';
import * as z from 'zod/mini';
import { aHub, aProgramme } from './a-hub.ts';
import { invited } from './guest.ts';
import type { Given } from './hub-suite.ts';

/** What is heard of news while the app is open. */
export function changesCases(given: () => Given): void {
  describe('news', () => {
    test('a line tells what is new for its device, and not what is for another team', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      for (const name of ['North', 'South']) await lead.post('api/teams', { name });
      const nora = await invited(lead, 'sitter', 'Nora', ['North']);
      const sue = await invited(lead, 'sitter', 'Sue', ['South']);
      const [forNora, forSue, forLead] = [
        await nora.listen(),
        await sue.listen(),
        await lead.listen(),
      ];
      await vi.waitFor(() => expect(forSue.heard() + forNora.heard() + forLead.heard()).toBe(3));
      await nora.send([nora.note()]);
      await vi.waitFor(() => expect([forNora.heard(), forLead.heard()]).toEqual([2, 2]));
      await lead.send([lead.note()]);
      await vi.waitFor(() => expect(forNora.heard()).toBe(3), 3000);
      expect(forSue.heard()).toBe(2);
      for (const line of [forNora, forSue, forLead]) line.stop();
    });

    test('a revoked device hears nothing more, whichever hub process it is at', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      const ben = await invited(lead, 'sitter', 'Ben');
      const second = await aHub(database);
      const line = await ben.listen();
      const ids = z.array(z.object({ id: z.string(), person: z.string() }));
      const devices = ids.parse((await lead.get('api/devices')).body);
      const phone = devices.find(({ person }) => person === 'Ben');
      const revoked = await lead.at(second.address).post(`api/devices/${phone?.id}/revoke`, {});
      expect(revoked.status).toBe(200);
      await line.ended;
      await second.close();
    });

    test('a hub that is closed ends its lines and finishes what it was asked', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      let isHeld = false;
      const held: (() => void)[] = [];
      const second = await aHub({
        query: (text, parameters) => database.query(text, parameters),
        script: (text) => database.script(text),
        listen: (channel, heard, again) => database.listen(channel, heard, again),
        close: () => database.close(),
        transaction: async (use) => {
          if (isHeld) await new Promise<void>((goOn) => held.push(goOn));
          return await database.transaction(use);
        },
      });
      const elsewhere = lead.at(second.address);
      const line = await elsewhere.listen();
      isHeld = true;
      const sending = elsewhere.send(Array.from({ length: 200 }, () => lead.note()));
      await vi.waitFor(() => expect(held).not.toEqual([]), 5000);
      const closing = second.close();
      await line.ended;
      isHeld = false;
      for (const goOn of held) goOn();
      expect((await sending).kept).toHaveLength(200);
      await closing;
      await expect(elsewhere.get('health')).rejects.toThrow();
    });

    test('a device holds only so many lines', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      const lines = await Promise.all(Array.from({ length: 4 }, () => lead.listen()));
      expect((await lead.get('api/changes')).status).toBe(429);
      for (const line of lines) line.stop();
      await Promise.all(lines.map(({ ended }) => ended));
      await vi.waitFor(async () => {
        const line = await lead.listen();
        await vi.waitFor(() => expect(line.heard()).toBe(1), 500);
        line.stop();
      }, 3000);
    });
  });
}
