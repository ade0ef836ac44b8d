import { describe, expect, test } from 'vitest';
import type { SeasonEvent } from '../../src/core/domain/event.ts';
import { NestId } from '../../src/core/domain/nest.ts';
import { aProgramme } from './a-hub.ts';
import { codeIn, idsOf, invited } from './guest.ts';
import type { Given } from './hub-suite.ts';

/** What goes into the record, and what comes out of it. */
export function recordCases(given: () => Given): void {
  const aLead = async () => {
    const { database, address } = given();
    return (await aProgramme(database, address)).lead;
  };

  describe('the record', () => {
    test('what was kept is given back as it was sent, in its order, once', async () => {
      const lead = await aLead();
      const odd = {
        ...lead.note('half a character \ud83d, and a NUL \0'),
        later_field: [1.0, 'x'],
      };
      const events = [lead.note('first'), odd, lead.note("third'; drop table event; --")];
      expect(await lead.send(events)).toEqual({ kept: idsOf(events), known: [], refused: [] });
      expect(await lead.send(events)).toEqual({ kept: [], known: idsOf(events), refused: [] });
      const page = await lead.page();
      expect(page.events.map(({ event }) => event)).toEqual(events);
      expect(page).toMatchObject({ more: false, behind: 0 });
    });

    test('nobody writes as somebody else: not by name, not by device', async () => {
      const lead = await aLead();
      const ben = await invited(lead, 'sitter', 'Ben');
      const forged = [
        { ...ben.note(), author: 'Lea' },
        { ...ben.note(), device: lead.device },
      ];
      const { kept, refused } = await ben.send(forged);
      expect(kept).toEqual([]);
      expect(refused.map(({ code, again }) => [code, again])).toEqual([
        ['author', false],
        ['author', false],
      ]);
      expect(refused[0]?.reason).toContain('written by Lea, and this device is Ben');
      expect((await lead.readAll()).ids).toEqual([]);
    });

    test('what is carried for others says who brought it, until its own device sends it', async () => {
      const lead = await aLead();
      const ana = await invited(lead, 'sitter', 'Ana');
      const ben = await invited(lead, 'sitter', 'Ben');
      const note = ana.note('handed over in the dark');
      const forged = { ...ben.note(), author: 'Ana', device: ana.device };
      await ben.send([], { carried: [note, forged] });
      const brought = (await lead.page()).events.map(({ brought_by }) => brought_by);
      expect(brought).toEqual(['Ben', 'Ben']);

      expect((await ana.send([note])).known).toEqual([note.id]);
      const after = (await lead.page()).events.map(({ brought_by }) => brought_by);
      expect(after).toEqual([null, 'Ben']);
      // By her own device, but carried by another: no word for it.
      await ben.send([], { carried: [note] });
      expect((await lead.page()).events[0]?.brought_by).toBeNull();
    });

    test('a note on record is never replaced, and the same row of a table is one note', async () => {
      const lead = await aLead();
      const ben = await invited(lead, 'sitter', 'Ben');
      const note = ben.note('quiet');
      await ben.send([note]);
      const changed = { ...note, details: { note: 'steady' } };
      const { refused } = await ben.send([changed]);
      expect(refused).toMatchObject([{ id: note.id, code: 'taken', again: false }]);
      const imported = { ...note, author: 'import', device: 'laptop', source: { row: 3 } };
      expect((await lead.send([], { carried: [imported] })).known).toEqual([note.id]);
      expect((await lead.page()).events).toEqual([{ event: note, brought_by: null }]);
    });

    test('a newer shape is kept and passed on, a damaged one refused with the place', async () => {
      const lead = await aLead();
      const reader = await invited(lead, 'reader', 'Rea');
      const newer = { ...lead.note(), schema: 2, kind: 'drone-flown', height_m: 30 };
      const { kept, refused } = await lead.send([
        newer,
        { ...lead.note(), schema: 2, kind: 'Robert"); drop', at: 'noon' },
        { ...lead.note(), details: { tracks: -3 } },
        { ...lead.note(), id: 'not-an-id' },
        { ...lead.note(), schema: 0 },
      ]);
      expect(kept).toEqual([newer.id]);
      expect(refused.map(({ code }) => code)).toEqual(Array(4).fill('unreadable'));
      expect(refused.map(({ reason }) => reason).join()).toMatch(/kind.*details\.tracks.*id/s);
      expect((await reader.page()).events).toEqual([{ event: newer, brought_by: null }]);
    });

    test('each role writes what is its own, and the rest of a batch is kept', async () => {
      const lead = await aLead();
      const holder = await invited(lead, 'permit holder', 'Per');
      const sitter = await invited(lead, 'sitter', 'Sid');
      const reader = await invited(lead, 'reader', 'Rea');
      const codes = async (device: typeof lead): Promise<string[]> => {
        const events: SeasonEvent[] = [
          device.note(),
          device.nest(`N-${device.person}`),
          device.write({ kind: 'programme-described', programme: { time_zone: 'Etc/UTC' } }),
        ];
        const { kept, refused } = await device.send(events);
        return events.map(({ id }) =>
          kept.includes(id) ? 'kept' : (refused.find((no) => no.id === id)?.code ?? ''),
        );
      };
      expect(await codes(lead)).toEqual(['kept', 'kept', 'kept']);
      expect(await codes(holder)).toEqual(['kept', 'kept', 'rights']);
      expect(await codes(sitter)).toEqual(['kept', 'rights', 'rights']);
      expect(await codes(reader)).toEqual(['rights', 'rights', 'rights']);
    });

    test('who may write something may correct and withdraw it, through any number of steps', async () => {
      const lead = await aLead();
      const sitter = await invited(lead, 'sitter', 'Sid');
      const nest = lead.nest('N-1');
      const note = lead.note();
      await lead.send([nest, note]);
      const correct = (target: SeasonEvent, changes = {}) =>
        sitter.write({ kind: 'corrected', target: target.id, changes });
      const ofNote = correct(note);
      const ofCorrection = correct(ofNote);
      const ofNest = correct(nest, { clutch: 3 });
      const withdrawn = sitter.write({ kind: 'withdrawn', target: ofNest.id });
      const { kept, refused } = await sitter.send([ofCorrection, ofNote, ofNest, withdrawn]);
      expect(kept).toEqual(idsOf([ofCorrection, ofNote]));
      expect(refused.map(({ code, again }) => [code, again])).toEqual([
        ['rights', false],
        ['rights', false],
      ]);

      const unsent = sitter.note();
      const early = correct(unsent);
      expect((await sitter.send([early])).refused).toMatchObject([
        { code: 'not on record', again: true },
      ]);
      expect((await sitter.send([early, unsent])).kept).toEqual(idsOf([early, unsent]));
    });

    test('a ring of corrections is kept from a lead and ends for everybody else', async () => {
      const lead = await aLead();
      const sitter = await invited(lead, 'sitter', 'Sid');
      const [a, b] = [lead.note(), lead.note()];
      const ring = [
        { ...lead.write({ kind: 'withdrawn', target: b.id }), id: a.id },
        { ...lead.write({ kind: 'withdrawn', target: a.id }), id: b.id },
      ];
      expect((await lead.send(ring)).kept).toEqual([a.id, b.id]);
      const into = sitter.write({ kind: 'withdrawn', target: a.id });
      expect((await sitter.send([into])).refused).toMatchObject([{ code: 'not on record' }]);
    });

    test('a batch that cannot be told apart is refused as a whole', async () => {
      const lead = await aLead();
      const note = lead.note();
      const twice = await lead.post('api/events', {
        events: [note, { ...note, details: { note: 'other' } }],
      });
      expect([twice.status, codeIn(twice)]).toEqual([400, 'bad request']);
      const nameless = await lead.post('api/events', { events: [note, { at: 'x' }] });
      expect([nameless.status, codeIn(nameless)]).toEqual([400, 'bad request']);
      expect((await lead.send([note, note])).kept).toEqual([note.id]);
    });

    test('a team reads its own and what is for everyone, its lead reads all', async () => {
      const lead = await aLead();
      for (const name of ['North', 'South']) await lead.post('api/teams', { name });
      const north = await invited(lead, 'sitter', 'Nora', ['North']);
      const south = await invited(lead, 'sitter', 'Sue', ['South']);
      const [forAll, forNorth, ofNora, ofSue] = [
        lead.note('all'),
        lead.note('north'),
        north.note('nora'),
        south.note('sue'),
      ];
      await lead.send([forAll]);
      await lead.send([forNorth], { team: 'north' });
      await north.send([ofNora]);
      await south.send([ofSue]);
      expect(new Set((await north.readAll()).ids)).toEqual(
        new Set(idsOf([forAll, forNorth, ofNora])),
      );
      expect(new Set((await south.readAll()).ids)).toEqual(new Set(idsOf([forAll, ofSue])));
      expect((await lead.readAll()).ids).toHaveLength(4);

      const closed = await north.post('api/events', { team: 'South', events: [north.note()] });
      expect([closed.status, codeIn(closed)]).toEqual([403, 'team closed']);
      // What lies in a team that she does not read is not told to her, only that it is there.
      expect((await north.send([], { carried: [ofSue] })).known).toEqual([ofSue.id]);
      const other = { ...ofSue, details: { note: 'guess' } };
      expect((await north.send([], { carried: [other] })).refused).toMatchObject([
        { code: 'taken' },
      ]);
    });

    test('another programme reads nothing, not even with the cursor of this one', async () => {
      const lead = await aLead();
      const stranger = await aLead();
      await lead.send([lead.note()]);
      const { cursor } = await lead.page();
      expect((await stranger.page()).events).toEqual([]);
      const borrowed = await stranger.get(`api/events?after=${cursor}`);
      expect([borrowed.status, codeIn(borrowed)]).toEqual([409, 'cursor unknown']);
    });

    test('pages follow each other without a gap, by count and by size, over several teams', async () => {
      const lead = await aLead();
      await lead.post('api/teams', { name: 'Dunes' });
      const remarks = Array.from({ length: 60 }, (_, n) => lead.note(`${n} `.repeat(5)));
      await lead.send(remarks.slice(0, 30));
      await lead.send(remarks.slice(30), { team: 'Dunes' });
      const first = await lead.page(null, 25);
      expect(first).toMatchObject({ more: true, behind: 35 });
      const walked = await lead.readAll(null, 7);
      expect(walked.ids).toHaveLength(60);
      expect(new Set(walked.ids)).toEqual(new Set(idsOf(remarks)));

      const long = Array.from({ length: 30 }, () => lead.note('x'.repeat(50_000)));
      await lead.send(long.slice(0, 15));
      await lead.send(long.slice(15));
      const page = await lead.page(walked.cursor);
      expect(page.events.length).toBeGreaterThan(15);
      expect(page.events.length).toBeLessThan(24);
      expect((await lead.readAll(walked.cursor)).ids).toHaveLength(30);
    });

    test('a page is compressed for whoever reads that', async () => {
      const lead = await aLead();
      await lead.send(Array.from({ length: 100 }, () => lead.note('still')));
      const { headers } = await lead.get('api/events', { 'accept-encoding': 'gzip' });
      expect(headers.get('content-encoding')).toBe('gzip');
      expect(headers.get('firstdark-now')).toMatch(/^\d{4}-.*Z$/);
    });

    test('a cursor whose place does not hold its event any more is unknown', async () => {
      const lead = await aLead();
      await lead.send([lead.note(), lead.note()]);
      const { cursor } = await lead.page();
      const asked = JSON.parse(Buffer.from(cursor, 'base64url').toString()) as {
        teams: Record<string, [number, string]>;
      };
      const [team, [seq, id]] = Object.entries(asked.teams)[0]!;
      const put = (place: [number, string]) =>
        Buffer.from(JSON.stringify({ ...asked, teams: { [team]: place } })).toString('base64url');
      expect((await lead.get(`api/events?after=${put([seq, id])}`)).status).toBe(200);
      for (const after of [put([seq - 1, id]), put([seq + 5, id]), 'rubbish', "' or 1=1 --"]) {
        const answer = await lead.get(`api/events?after=${encodeURIComponent(after)}`);
        expect([answer.status, codeIn(answer)]).toEqual([409, 'cursor unknown']);
      }
    });

    test('while many write at once, no reader ever skips an event', async () => {
      const lead = await aLead();
      const writers = [
        lead,
        ...(await Promise.all(
          ['Ana', 'Ben', 'Cem', 'Dan', 'Eva'].map((name) => invited(lead, 'sitter', name)),
        )),
      ];
      const reader = await invited(lead, 'reader', 'Rea');
      const written: string[] = [];
      const writing = writers.map(async (writer) => {
        for (let round = 0; round < 6; round++) {
          const notes = Array.from({ length: 5 }, () => writer.note());
          const { kept } = await writer.send(notes);
          written.push(...kept);
          // The answer was lost: the same again.
          if (round % 2 === 0) expect((await writer.send(notes)).kept).toEqual([]);
        }
      });
      let done = false;
      const finished = Promise.all(writing).then(() => (done = true));
      const seen: string[] = [];
      let cursor: string | null = null;
      do {
        const read: { ids: string[]; cursor: string } = await reader.readAll(cursor, 13);
        seen.push(...read.ids);
        cursor = read.cursor;
      } while (!done);
      await finished;
      seen.push(...(await reader.readAll(cursor)).ids);
      expect(seen).toHaveLength(180);
      expect(new Set(seen)).toEqual(new Set(written));
    });

    test('the same note from two devices at once is kept once', async () => {
      const lead = await aLead();
      await lead.post('api/teams', { name: 'North' });
      const ana = await invited(lead, 'sitter', 'Ana');
      const ben = await invited(lead, 'sitter', 'Ben', ['North']);
      const notes = Array.from({ length: 20 }, () =>
        ana.write({ kind: 'visit-noted', nest: NestId.parse('N-1'), details: {} }),
      );
      const receipts = await Promise.all([
        ana.send(notes),
        ben.send([], { carried: notes }),
        lead.send([], { carried: notes }),
      ]);
      expect(receipts.flatMap(({ kept }) => kept).sort()).toEqual(idsOf(notes).sort());
      expect(receipts.flatMap(({ refused }) => refused)).toEqual([]);
      expect((await lead.readAll()).ids).toHaveLength(20);
    });
  });
}
