/** What the page of the browser test can be asked to do with the log in the browser's own store. */
import { Database } from '../../../src/edges/store/database.ts';
import { openIndexedLog } from '../../../src/edges/store/indexed-log.ts';
import { upgradeSteps } from '../../../src/edges/store/upgrade-steps.ts';
import { Pen } from '../../arbitraries/written.ts';
import { eventLogCases } from '../../suites/event-log-cases.ts';

/** Each test has a store of its own, named in the address. */
const store = location.search;
const log = await openIndexedLog('own', { database: new Database(store) });
const pen = new Pen('Ada Invented', 7);
let heard = 0;
log.watch(() => {
  heard += 1;
});

const newer = new Database(store, [
  ...upgradeSteps,
  { to: upgradeSteps.length + 1, name: 'of a newer version', run: () => undefined },
]);

const asked = {
  /** The name of every case, and what went wrong in it; null when nothing did. */
  async runCases(): Promise<readonly (readonly [string, string | null])[]> {
    const outcomes: [string, string | null][] = [];
    for (const [index, { name, run }] of eventLogCases.entries()) {
      const open = () =>
        openIndexedLog(`case ${index}`, { database: new Database('cases'), checkedBy: 'this one' });
      const failed = await run({ open, isShared: true }).then(
        () => null,
        (error: unknown) => String(error),
      );
      outcomes.push([name, failed]);
    }
    return outcomes;
  },
  /** Appends notes of so many characters each, one unless told; the outcome. */
  append(count = 1, characters = 10) {
    const digits = () => Math.random().toString(36).slice(2);
    const note = Array.from({ length: characters }, () => digits()[0] ?? '0').join('');
    return log.append(
      Array.from({ length: count }, () =>
        pen.logged({ kind: 'visit-noted', nest: pen.nestId('N-1'), details: { note } }),
      ),
    );
  },
  /** How many events are in the log. */
  async count(): Promise<number | string> {
    const read = await log.read();
    return read.ok ? read.events.length : read.problem.kind;
  },
  heard: () => heard,
  /** Opens the record as a newer version of the page would. */
  async openAsNewer(): Promise<number | string> {
    const read = await (await openIndexedLog('own', { database: newer })).read();
    return read.ok ? read.events.length : read.problem.kind;
  },
};

declare global {
  interface Window {
    asked: typeof asked;
  }
}
window.asked = asked;
