import { randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { DevicesAnswer, InvitationAnswer, RevokedAnswer } from '../../src/hub/http/shapes.ts';
import { aProgramme, leadInvitation } from './a-hub.ts';
import { Guest, codeIn, invited, joinBy } from './guest.ts';
import type { Given } from './hub-suite.ts';

/** Who gets in, and who is put out again. */
export function joiningCases(given: () => Given): void {
  describe('joining', () => {
    test('an invitation lets one device in, and says as whom', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      const made = InvitationAnswer.parse(
        (await lead.post('api/invitations', { role: 'sitter', teams: [], expires_h: 2 })).body,
      );
      expect(made.link).toBe(`${address}#/join/${made.invitation}`);
      const ben = await joinBy(address, made.invitation, ' Ben  Invented ');
      expect((await ben.get('api/me')).body).toMatchObject({
        person: 'Ben Invented',
        device: ben.device,
        role: 'sitter',
        teams: [],
      });
      const again = await new Guest(address).post('api/join', {
        invitation: made.invitation,
        person: 'Cem',
        device: randomUUID(),
      });
      expect([again.status, codeIn(again)]).toEqual([403, 'invitation used']);
    });

    test('a device whose first answer was lost joins once more by the same invitation', async () => {
      const { database, address } = given();
      const { id } = await aProgramme(database, address);
      const invitation = await leadInvitation(database, id);
      const device = randomUUID();
      const lost = await joinBy(address, invitation, 'Ana', device);
      const found = await joinBy(address, invitation, 'Ana', device);
      expect((await found.get('api/me')).status).toBe(200);
      expect((await lost.get('api/me')).status).toBe(401);
    });

    test('an invitation that ran out, was taken back or was never made lets nobody in', async () => {
      const { database, address } = given();
      const { id, lead } = await aProgramme(database, address);
      const guest = new Guest(address);
      const join = (invitation: string) =>
        guest.post('api/join', { invitation, person: 'Mal', device: randomUUID() });

      const late = await leadInvitation(database, id, 1e-7);
      expect(codeIn(await join(late))).toBe('invitation expired');

      const made = InvitationAnswer.parse(
        (await lead.post('api/invitations', { role: 'reader' })).body,
      );
      expect((await lead.get('api/invitations')).body).toMatchObject([{ id: made.id }]);
      expect((await lead.post(`api/invitations/${made.id}/withdraw`, {})).status).toBe(200);
      expect(codeIn(await join(made.invitation))).toBe('invitation withdrawn');
      expect((await lead.get('api/invitations')).body).toEqual([]);

      expect(codeIn(await join(`fdi1_${'A'.repeat(32)}`))).toBe('invitation unknown');
    });

    test('a name belongs to one person unless the lead says that it is the same one', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      await invited(lead, 'sitter', 'Ana');
      await expect(invited(lead, 'sitter', 'ana')).rejects.toThrow('name taken');

      const answer = await lead.post('api/invitations', { role: 'sitter', person: 'Ana' });
      const second = await joinBy(
        address,
        InvitationAnswer.parse(answer.body).invitation,
        'Somebody',
      );
      expect(second.person).toBe('Ana');
    });

    test('a device that is in does not join a second time', async () => {
      const { database, address } = given();
      const { lead, id } = await aProgramme(database, address);
      const invitation = await leadInvitation(database, id);
      await lead.get('api/me');
      await expect(joinBy(address, invitation, 'Lea 2', lead.device)).rejects.toThrow(
        'device taken',
      );
    });

    test('a lost phone is shut out at once, and the lead learns what it had', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      expect((await lead.post('api/teams', { name: 'Dunes' })).status).toBe(200);
      const ben = await invited(lead, 'sitter', 'Ben', ['Dunes']);
      await ben.send([ben.note(), ben.note()]);
      await lead.send([lead.nest('N-1')]);
      const { cursor } = await ben.readAll();
      await ben.page(cursor);

      const devices = DevicesAnswer.parse((await lead.get('api/devices')).body);
      const phone = devices.find(({ person }) => person === 'Ben');
      expect(phone).toMatchObject({ events_sent: 2, read_up_to: 3, teams: ['Dunes'] });

      const path = `api/devices/${phone?.id}/revoke`;
      const had = RevokedAnswer.parse((await lead.post(path, { reason: 'left on a bus' })).body);
      expect(had).toMatchObject({ person: 'Ben', events_readable: 3, events_read: 3 });
      const shut = await ben.get('api/events');
      expect([shut.status, codeIn(shut)]).toEqual([401, 'key revoked']);
      expect((await lead.post(path, {})).body).toMatchObject({ person: 'Ben', events_read: 3 });
    });

    test('only a lead invites, lists and revokes, and only in their own programme', async () => {
      const { database, address } = given();
      const { lead } = await aProgramme(database, address);
      const { lead: stranger } = await aProgramme(database, address);
      const ben = await invited(lead, 'permit holder', 'Ben');
      const Ids = z.array(z.object({ id: z.string(), person: z.string() }));
      const devices = Ids.parse((await lead.get('api/devices')).body);
      expect(devices.map(({ person }) => person)).toEqual(['Ben', 'Lea']);
      const [phone] = devices;

      for (const refused of [
        await ben.post('api/invitations', { role: 'lead' }),
        await ben.get('api/invitations'),
        await ben.get('api/devices'),
        await ben.post(`api/devices/${phone?.id}/revoke`, {}),
        await ben.post('api/teams', { name: 'Mine' }),
      ]) {
        expect([refused.status, codeIn(refused)]).toEqual([403, 'not a lead']);
      }
      const foreign = await stranger.post(`api/devices/${phone?.id}/revoke`, {});
      expect([foreign.status, codeIn(foreign)]).toEqual([404, 'device unknown']);
      expect((await ben.get('api/me')).status).toBe(200);
      const wrongTeam = await lead.post('api/invitations', { role: 'sitter', teams: ['Nowhere'] });
      expect([wrongTeam.status, codeIn(wrongTeam)]).toEqual([404, 'team unknown']);
    });
  });
}
