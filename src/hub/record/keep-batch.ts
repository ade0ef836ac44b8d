import * as z from 'zod/mini';
import type { Asker } from '../access/asker.ts';
import { asDevice } from '../database/as-device.ts';
import type { Database, Sql } from '../database/database.ts';
import { codeOf } from '../database/database-trouble.ts';
import { firstRow, rows } from '../database/rows.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { mayWrite, rightsText } from './rights.ts';
import { isSameNote } from './same-note.ts';
import { saysTheSame } from '../../core/log/same-event.ts';
import { type Candidate, type RefusedEvent, sortBatch } from './sort-batch.ts';
import { SpokenOf } from './spoken-of.ts';

/** What became of a batch: every id in it is in one of the three. */
export interface Receipt {
  /** New, and on stable storage. */
  readonly kept: readonly string[];
  /** There already. */
  readonly known: readonly string[];
  readonly refused: readonly RefusedEvent[];
}

export interface SentBatch {
  /** The id of the team it is for. */
  readonly team: string;
  readonly events: readonly unknown[];
  readonly carried: readonly unknown[];
}

const UNIQUE_VIOLATION = '23505';
/** Half a character or a NUL, as JSON.stringify writes them: the database cannot read into such a body. */
const UNREADABLE_IN_SQL = /\\u(?:0000|d[89a-f])/;

/** Adds a batch to the record, as far as the device may. The same batch again changes nothing. */
export async function keepBatch(
  database: Database,
  asker: Asker,
  batch: SentBatch,
): Promise<Outcome<Receipt>> {
  const sorted = sortBatch(asker, batch.events, batch.carried);
  if (!sorted.ok) return sorted;
  const { candidates, refused } = sorted.value;
  const keep = (): Promise<Outcome<Receipt>> =>
    asDevice(database, asker.id, async (sql) => {
      const kept = await keepCandidates(sql, asker, batch.team, candidates);
      if (!kept.ok) return kept;
      return done({ ...kept.value, refused: [...refused, ...kept.value.refused] });
    });
  try {
    return await keep();
  } catch (error) {
    // The same id came into another team at the same moment: now it is there to be compared with.
    if (codeOf(error) !== UNIQUE_VIOLATION) throw error;
    return keep();
  }
}

async function keepCandidates(
  sql: Sql,
  asker: Asker,
  team: string,
  candidates: readonly Candidate[],
): Promise<Outcome<Receipt>> {
  const Place = z.object({ last: z.nullable(z.number()) });
  const place = await firstRow(
    sql,
    Place,
    'select firstdark.open_batch($1::uuid)::float8 as last',
    [team],
  );
  const last = place?.last ?? null;
  if (last === null) {
    if (asker.role === 'reader') return done(allRefused(asker, candidates));
    return turnedAway(403, 'team closed', 'This device does not write to that team.');
  }
  const { fresh, known, vouched, refused } = await compared(sql, candidates);
  const spokenOf = await SpokenOf.in(
    sql,
    asker.programme,
    fresh.map(({ event }) => event),
  );
  const kept: Candidate[] = [];
  for (const candidate of fresh) {
    const no = whyNot(asker, candidate, spokenOf);
    if (no === null) kept.push(candidate);
    else refused.push(no);
  }
  if (kept.length > 0) await insert(sql, asker, team, last, kept);
  if (vouched.length > 0) await sql.query(VOUCH, [JSON.stringify(vouched)]);
  await sql.query('select firstdark.close_batch($1::uuid, $2::int)', [team, kept.length]);
  return done({ kept: kept.map(({ event }) => event.id), known, refused });
}

const VOUCH =
  'select firstdark.vouch(array(select value::uuid from json_array_elements_text($1::text::json)))';

interface Compared {
  readonly fresh: readonly Candidate[];
  readonly known: string[];
  /** Known so far from somebody who carried them, and now from their own device. */
  readonly vouched: string[];
  readonly refused: RefusedEvent[];
}

/** Sets the events of a batch against those on record under their ids. */
async function compared(sql: Sql, candidates: readonly Candidate[]): Promise<Compared> {
  const OnRecord = z.object({ id: z.string(), vouched: z.boolean(), body: z.string() });
  const found = await rows(
    sql,
    OnRecord,
    `select id, vouched, body from firstdark.on_record(
       array(select value::uuid from json_array_elements_text($1::text::json)))`,
    [JSON.stringify(candidates.map(({ event }) => event.id))],
  );
  const onRecord = new Map(found.map((row) => [row.id, row]));
  const [fresh, known, vouched, refused]: [Candidate[], string[], string[], RefusedEvent[]] = [
    [],
    [],
    [],
    [],
  ];
  for (const candidate of candidates) {
    const { id, raw } = candidate.event;
    const row = onRecord.get(id);
    if (row === undefined) {
      fresh.push(candidate);
      continue;
    }
    const body: unknown = JSON.parse(row.body);
    if (!isSameNote(body, raw)) {
      refused.push({ id, code: 'taken', reason: TAKEN, again: false });
      continue;
    }
    known.push(id);
    if (!row.vouched && isVouched(candidate) && saysTheSame(body, raw)) vouched.push(id);
  }
  return { fresh, known, vouched, refused };
}

const TAKEN =
  'Another note is on record under the id of this one, and a note on record is never replaced. This one stays on this device; write it again if it is the right one.';

/** Whether the hub stands for the author that an event names. */
function isVouched({ event, isOwn }: Candidate): boolean {
  return isOwn && !UNREADABLE_IN_SQL.test(event.text);
}

function whyNot(asker: Asker, { event }: Candidate, spokenOf: SpokenOf): RefusedEvent | null {
  const { id } = event;
  if (asker.role === 'lead') return null;
  const kind = spokenOf.kindOf(event);
  if (kind === null) {
    const reason =
      'What this corrects or withdraws is not on record yet. It is sent again when that is there.';
    return { id, code: 'not on record', reason, again: true };
  }
  if (mayWrite(asker.role, kind)) return null;
  return { id, code: 'rights', reason: rightsText(asker.role, kind), again: false };
}

function allRefused(asker: Asker, candidates: readonly Candidate[]): Receipt {
  const refused = candidates.map(({ event: { id, kind } }) => {
    const reason = rightsText(asker.role, kind);
    return { id, code: 'rights', reason, again: false } as const;
  });
  return { kept: [], known: [], refused };
}

async function insert(
  sql: Sql,
  asker: Asker,
  team: string,
  last: number,
  kept: readonly Candidate[],
): Promise<void> {
  const written = kept.map((candidate, index) => ({
    seq: last + 1 + index,
    id: candidate.event.id,
    vouched: isVouched(candidate),
    kind: candidate.event.kind,
    schema: candidate.event.schema,
    target: candidate.event.target,
    // As text within the text: what the database may not read into stays closed to it.
    body: candidate.event.text,
  }));
  await sql.query(
    `insert into firstdark.event
       (programme, team, device, person, seq, id, vouched, kind, schema, target, body)
     select $1::uuid, $2::uuid, $3::uuid, $4, seq, id, vouched, kind, schema, target, body::json
     from json_to_recordset($5::text::json) as sent(seq bigint, id uuid, vouched boolean,
       kind text, schema int, target uuid, body text)`,
    [asker.programme, team, asker.id, asker.person, JSON.stringify(written)],
  );
}
