import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { asDevice } from '../../src/hub/database/as-device.ts';
import type { Sql } from '../../src/hub/database/database.ts';
import { codeOf } from '../../src/hub/database/database-trouble.ts';
import { rows } from '../../src/hub/database/rows.ts';
import { DevicesAnswer } from '../../src/hub/http/shapes.ts';
import { aProgramme } from './a-hub.ts';
import { type HubDevice, invited } from './guest.ts';
import type { Given } from './hub-suite.ts';

const Id = z.object({ id: z.string() });
const Team = z.object({ id: z.string(), name: z.string() });

const DENIED = '42501'; // PostgreSQL, appendix A: insufficient_privilege

/** What the database itself lets a device see and add, whatever SQL is run as its role. */
export function sqlCases(given: () => Given): void {
  let shared: ReturnType<typeof setUp> | null = null;
  const theBeach = () => (shared ??= setUp());

  /** Two teams of one programme, a programme beside it, and a note in each. */
  async function setUp() {
    const { database, address } = given();
    const { id: programme, lead } = await aProgramme(database, address);
    const { id: beside, lead: stranger } = await aProgramme(database, address);
    for (const name of ['North', 'South']) await lead.post('api/teams', { name });
    const nora = await invited(lead, 'sitter', 'Nora', ['North']);
    const sue = await invited(lead, 'sitter', 'Sue', ['South']);
    const rea = await invited(lead, 'reader', 'Rea');
    const notes = {
      all: lead.note('all'),
      north: nora.note('north'),
      south: sue.note('south'),
      beside: stranger.note('beside'),
    };
    await lead.send([notes.all]);
    await nora.send([notes.north]);
    await sue.send([notes.south]);
    await stranger.send([notes.beside]);
    const devices = DevicesAnswer.parse((await lead.get('api/devices')).body);
    const idOf = ({ person }: HubDevice): string =>
      devices.find((device) => device.person === person)?.id ?? '';
    const teams = await rows(
      database,
      Team,
      'select id, name from firstdark.team where programme = $1::uuid',
      [programme],
    );
    const team = (name: string): string => teams.find((one) => one.name === name)?.id ?? '';
    const as = <T>(device: string, use: (sql: Sql) => Promise<T>): Promise<T> =>
      asDevice(database, device, use);
    return { database, programme, beside, lead, nora, sue, rea, notes, idOf, team, as };
  }

  const seen = async (sql: Sql): Promise<string[]> =>
    (await rows(sql, Id, 'select id from firstdark.event order by id')).map(({ id }) => id);

  const failure = async (work: Promise<unknown>): Promise<string | null> =>
    work.then(
      () => 'nothing was wrong',
      (error: unknown) => codeOf(error),
    );

  describe('rights in SQL', () => {
    test('a device selects its own teams of its own programme, and nothing else', async () => {
      const { lead, nora, notes, idOf, as, programme, beside } = await theBeach();
      expect(await as(idOf(nora), seen)).toEqual([notes.all.id, notes.north.id].sort());
      const all = [notes.all.id, notes.north.id, notes.south.id].sort();
      expect(await as(idOf(lead), seen)).toEqual(all);
      const asked = await as(idOf(nora), (sql) =>
        sql.query('select id from firstdark.event where programme = $1::uuid', [beside]),
      );
      expect(asked).toEqual([]);
      const programmes = await as(idOf(nora), (sql) =>
        rows(sql, Id, 'select id from firstdark.programme'),
      );
      expect(programmes).toEqual([{ id: programme }]);
    });

    test('without a device, or with one that is not there, nothing is seen', async () => {
      const { database, as } = await theBeach();
      expect(await as('', seen)).toEqual([]);
      expect(await as('00000000-0000-4000-8000-000000000000', seen)).toEqual([]);
      const asRole = database.transaction(async (sql) => {
        await sql.query("select set_config('role', 'firstdark_device', true)");
        return seen(sql);
      });
      expect(await asRole).toEqual([]);
    });

    test.each([
      ['in another team', { team: 'South' }],
      ['in the name of another person', { person: 'Sue' }],
      ['from another device', { device: 'other' }],
      ['vouching for another author', { author: 'Sue' }],
      ['vouching for another device of hers', { name: 'other-phone' }],
    ] as const)('a device inserts no event %s', async (_, change) => {
      const { nora, sue, programme, idOf, team, as } = await theBeach();
      const wanted = {
        team: 'North',
        person: 'Nora',
        author: 'Nora',
        name: nora.device,
        ...change,
      };
      const event = nora.note();
      const body = { ...event, author: wanted.author, device: wanted.name };
      const insert = (row: typeof wanted) =>
        as(idOf(nora), (sql) =>
          sql.query(
            `insert into firstdark.event
               (programme, team, seq, id, device, person, vouched, kind, schema, body)
             values ($1::uuid, $2::uuid, 99, $3::uuid, $4::uuid, $5, true, 'visit-noted', 1,
               $6::text::json)`,
            [
              programme,
              team(row.team),
              event.id,
              'device' in change ? idOf(sue) : idOf(nora),
              row.person,
              JSON.stringify(body),
            ],
          ),
        );
      expect(await failure(insert(wanted))).toBe(DENIED);
    });

    test('a device inserts its own, so that the refusals above are not for another reason', async () => {
      const { nora, programme, idOf, team, as } = await theBeach();
      const event = nora.note();
      await as(idOf(nora), (sql) =>
        sql.query(
          `insert into firstdark.event
             (programme, team, seq, id, device, person, vouched, kind, schema, body)
           values ($1::uuid, $2::uuid, 99, $3::uuid, $4::uuid, 'Nora', true, 'visit-noted', 1,
             $5::text::json)`,
          [programme, team('North'), event.id, idOf(nora), JSON.stringify(event)],
        ),
      );
      expect(await as(idOf(nora), seen)).toContain(event.id);
    });

    test('a reader opens no batch, nor does anybody in another team or programme', async () => {
      const { rea, nora, idOf, team, as } = await theBeach();
      const open = (device: string, name: string) =>
        as(device, (sql) =>
          sql.query('select firstdark.open_batch($1::uuid)::int as last', [team(name)]),
        );
      expect(await open(idOf(rea), 'everyone')).toEqual([{ last: null }]);
      expect(await open(idOf(nora), 'South')).toEqual([{ last: null }]);
      expect(await open(idOf(nora), 'North')).toEqual([{ last: expect.any(Number) as number }]);
    });

    test.each([
      ['changes an event', "update firstdark.event set person = 'x'"],
      ['removes an event', 'delete from firstdark.event'],
      ['empties the record', 'truncate firstdark.event'],
      ['reads keys', 'select key_hash from firstdark.device'],
      ['reads invitations', 'select secret_hash from firstdark.invitation'],
      ['moves the places of a team', 'update firstdark.team_sequence set last = 0'],
      ['makes itself a lead', "update firstdark.device set role = 'lead'"],
      ['opens a programme', "select firstdark.add_programme('x')"],
      [
        'makes a team',
        "insert into firstdark.team (programme, name) select id, 'x' from firstdark.programme",
      ],
    ])('no device %s', async (_, statement) => {
      const { lead, idOf, as } = await theBeach();
      expect(await failure(as(idOf(lead), (sql) => sql.query(statement)))).toBe(DENIED);
    });

    test('no device comes at a partition of the record beside its policies', async () => {
      const { lead, programme, idOf, as } = await theBeach();
      const partition = `firstdark.event_${programme.replaceAll('-', '')}`;
      const direct = as(idOf(lead), (sql) => sql.query(`select * from ${partition}`));
      expect(await failure(direct)).toBe(DENIED);
    });

    test('vouching changes only what the device itself wrote', async () => {
      const { lead, nora, sue, idOf, as } = await theBeach();
      const [ofNora, ofSue] = [nora.note(), sue.note()];
      await lead.send([], { carried: [ofNora, ofSue] });
      await as(idOf(nora), (sql) =>
        sql.query('select firstdark.vouch(array[$1::uuid, $2::uuid])', [ofNora.id, ofSue.id]),
      );
      const page = await lead.readAll();
      const by = page.events.filter(
        (_, at) => page.ids[at] === ofNora.id || page.ids[at] === ofSue.id,
      );
      expect(by.map(({ brought_by }) => brought_by).sort()).toEqual(['Lea', null]);
    });

    // The last one, as it spoils the beach for the others.
    test('a revoked device sees nothing in SQL either', async () => {
      const { lead, nora, idOf, as } = await theBeach();
      await lead.post(`api/devices/${idOf(nora)}/revoke`, {});
      expect(await as(idOf(nora), seen)).toEqual([]);
    });
  });
}
