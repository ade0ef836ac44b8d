import type { EventLog, LoggedEvent } from '../../src/core/log/event-log.ts';
import { idOf } from '../../src/core/log/event-log.ts';
import { merge } from '../../src/core/log/merge.ts';
import { rawOf, readEvent } from '../../src/core/log/upcast.ts';
import { Pen } from '../arbitraries/written.ts';

/** A place for logs that a case can open and open again. */
export interface LogPlace {
  /** Opens the log; what was appended before is there. */
  open(): Promise<EventLog>;
  /** Whether two can hold it open at once and hear of each other. */
  readonly isShared: boolean;
}

export interface LogCase {
  readonly name: string;
  /** Needs a second holder of the same log. */
  readonly needsSharing: boolean;
  /** Throws when the log does not do what the name says. */
  readonly run: (place: LogPlace) => Promise<void>;
}

const logCase = (name: string, run: LogCase['run']): LogCase => ({
  name,
  run,
  needsSharing: false,
});
const sharedCase = (name: string, run: LogCase['run']): LogCase => ({
  name,
  run,
  needsSharing: true,
});

function agree(actual: unknown, expected: unknown): void {
  const [found, wanted] = [JSON.stringify(actual), JSON.stringify(expected)];
  if (found !== wanted) throw new Error(`Wanted ${wanted}, found ${found}.`);
}

async function idsIn(log: EventLog): Promise<readonly string[]> {
  const read = await log.read();
  if (!read.ok) throw new Error(read.problem.message);
  return read.events.map(idOf).sort();
}

const idsOf = (events: readonly LoggedEvent[]): readonly string[] => events.map(idOf).sort();

function notes(count: number, pen = new Pen()): readonly LoggedEvent[] {
  return Array.from({ length: count }, (_, index) =>
    pen.logged({
      kind: 'visit-noted',
      nest: pen.nestId('N-1'),
      details: { note: `note ${index} “é🐢”\n` },
    }),
  );
}

/** What every log must do; a test runner or a page in a browser goes through them one by one. */
export const eventLogCases: readonly LogCase[] = [
  logCase('a log that nothing was added to is empty', async ({ open }) => {
    const log = await open();
    agree(await idsIn(log), []);
    agree(await log.append([]), { ok: true, added: 0 });
    await log.close();
  }),

  logCase('what was appended is read back as it was written, text and all', async ({ open }) => {
    const log = await open();
    const events = notes(5);
    agree(await log.append(events), { ok: true, added: 5 });
    const read = await log.read();
    agree(read.ok && merge(read.events, []), merge(events, []));
    await log.close();
  }),

  logCase('an event that is there already is not added again', async ({ open }) => {
    const log = await open();
    const events = notes(3);
    agree(await log.append(events.slice(0, 2)), { ok: true, added: 2 });
    agree(await log.append(events), { ok: true, added: 1 });
    agree(await log.append([...events, ...events]), { ok: true, added: 0 });
    agree(await idsIn(log), idsOf(events));
    await log.close();
  }),

  logCase('an event twice in one append is added once', async ({ open }) => {
    const log = await open();
    const [note] = notes(1);
    if (note === undefined) return;
    agree(await log.append([note, note]), { ok: true, added: 1 });
    await log.close();
  }),

  logCase('appends that are not waited for all arrive', async ({ open }) => {
    const log = await open();
    const events = notes(20);
    const appended = await Promise.all(events.map((event) => log.append([event])));
    agree(
      appended.every(({ ok }) => ok),
      true,
    );
    agree(await idsIn(log), idsOf(events));
    await log.close();
  }),

  logCase('what this version cannot read is kept and given back as it was', async ({ open }) => {
    const log = await open();
    const raws = [
      { id: 'from-the-future', schema: 99, kind: 'tagged', tag: { colour: 'red' } },
      { nonsense: [1, 2, 3] },
      'a line that was damaged {',
    ];
    agree(await log.append(raws.map(readEvent)), { ok: true, added: 3 });
    const read = await log.read();
    const back = read.ok ? read.events : [];
    agree(
      back.map(({ state }) => state),
      ['foreign', 'foreign', 'foreign'],
    );
    const sorted = (values: readonly unknown[]): readonly string[] =>
      values.map((value) => JSON.stringify(value)).sort();
    agree(sorted(back.map(rawOf)), sorted(raws));
    await log.close();
  }),

  logCase('what an event says beyond what this version reads is kept', async ({ open }) => {
    const log = await open();
    const [note] = notes(1);
    if (note?.state !== 'known') return;
    const more = { ...note.event, mood: 'hopeful' };
    await log.append([readEvent(more)]);
    const read = await log.read();
    agree(read.ok && read.events.map(rawOf), [more]);
    await log.close();
  }),

  logCase('a closed log says so and adds nothing', async ({ open }) => {
    const log = await open();
    await log.close();
    const appended = await log.append(notes(1));
    const read = await log.read();
    agree([appended.ok, !appended.ok && appended.problem.kind], [false, 'closed']);
    agree([read.ok, !read.ok && read.problem.kind], [false, 'closed']);
  }),

  sharedCase('what was reported as saved is there for whoever opens next', async ({ open }) => {
    const log = await open();
    const events = notes(3);
    agree(await log.append(events), { ok: true, added: 3 });
    const other = await open();
    agree(await idsIn(other), idsOf(events));
    await log.close();
    await other.close();
  }),

  sharedCase('two holders that append at once lose nothing', async ({ open }) => {
    const [mine, theirs] = [await open(), await open()];
    const ours = notes(10, new Pen('Ada Invented', 1));
    const others = notes(10, new Pen('Bo Invented', 2));
    await Promise.all([
      ...ours.map((event) => mine.append([event])),
      ...others.map((event) => theirs.append([event])),
      mine.append(others),
    ]);
    agree(await idsIn(mine), idsOf([...ours, ...others]));
    agree(await idsIn(theirs), idsOf([...ours, ...others]));
    await mine.close();
    await theirs.close();
  }),

  sharedCase('a watcher hears of what another holder adds, until it stops', async ({ open }) => {
    const [mine, theirs] = [await open(), await open()];
    agree(await idsIn(mine), []);
    let heard = 0;
    let told: () => void = () => undefined;
    const next = new Promise<void>((resolve) => (told = resolve));
    const stop = mine.watch(() => {
      heard += 1;
      told();
    });
    await theirs.append(notes(1));
    await next;
    agree(await idsIn(mine), idsOf(notes(1)));
    stop();
    const soFar = heard;
    await theirs.append(notes(2));
    await new Promise((resolve) => setTimeout(resolve, 600));
    agree(heard, soFar);
    await mine.close();
    await theirs.close();
  }),
];
