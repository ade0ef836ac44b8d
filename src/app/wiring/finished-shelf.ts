import { knownOf, type LogProblem } from '../../core/log/event-log.ts';
import { finishRecord, listFinished, runningRecord } from '../../edges/store/finished-records.ts';
import { openIndexedLog } from '../../edges/store/indexed-log.ts';
import { deleteRecord } from '../../edges/store/records.ts';
import type { FinishedRead, FinishedSeason, FinishedShelf } from '../state/finished-seasons.ts';
import { thisBuild } from './this-build.ts';

/** The finished seasons of this device, each a record of its own in the browser's store. */
export const finishedShelf: FinishedShelf = {
  async read(of): Promise<FinishedRead> {
    const listed = await listFinished();
    if (!listed.ok) return listed;
    const seasons: FinishedSeason[] = [];
    for (const { name, title } of listed.value.filter((kept) => kept.of === of)) {
      const log = await openIndexedLog(name, { checkedBy: thisBuild });
      const read = await log.read();
      await log.close();
      if (!read.ok) return read;
      seasons.push({ id: name, title, events: knownOf(read.events) });
    }
    return { ok: true, seasons };
  },

  async keep(of, title, events): Promise<LogProblem | null> {
    const name = `earlier ${crypto.randomUUID()}`;
    // Marked first: a page that is shut in between leaves an empty line that can be removed.
    const marked = await finishRecord({ name, of, title });
    if (!marked.ok) return marked.problem;
    const log = await openIndexedLog(name, { checkedBy: thisBuild });
    const added = await log.append(events.map((event) => ({ state: 'known', event })));
    await log.close();
    if (added.ok) return null;
    await deleteRecord(name);
    return added.problem;
  },

  async remove(id): Promise<LogProblem | null> {
    const gone = await deleteRecord(id);
    return gone.ok ? null : gone.problem;
  },

  async close(of, title): Promise<LogProblem | null> {
    const running = await runningRecord(of);
    if (!running.ok) return running.problem;
    const marked = await finishRecord({ name: running.value, of, title });
    return marked.ok ? null : marked.problem;
  },
};
