import type { EventLog, LoggedEvent, ReadAhead } from '../../core/log/event-log.ts';
import { MemoryLog } from '../../core/log/memory-log.ts';
import { openIndexedLog } from '../../edges/store/indexed-log.ts';
import { GlanceShelf } from '../../edges/store/glance-shelf.ts';
import { runningRecord } from '../../edges/store/finished-records.ts';
import { BrowserReplicas } from '../../edges/store/browser-replicas.ts';
import { deleteRecord } from '../../edges/store/records.ts';
import { RunningClock, SteppedClock, type TimeSource } from '../state/clock.svelte.ts';
import { finishedShelf } from './finished-shelf.ts';
import type { OpenedLog, SeasonShelf } from '../state/seasons.svelte.ts';
import { thisBuild } from './this-build.ts';

/** The seasons of this device, each a record of its own in the browser's store. */
export function seasonShelf(time: TimeSource): SeasonShelf {
  return {
    open: (name, ahead) => (name === 'own' ? openOwn(time, ahead) : openInvented(time)),
    async erase(name) {
      const running = await runningRecord(name);
      if (!running.ok) return running.problem;
      const gone = await deleteRecord(running.value);
      if (!gone.ok) return gone.problem;
      // A key that stayed would bring it all back.
      await new BrowserReplicas().leave(running.value).catch(() => undefined);
      return null;
    },
    finished: finishedShelf,
    glances: new GlanceShelf(),
  };
}

async function openOwn(time: TimeSource, ahead: ReadAhead): Promise<OpenedLog> {
  const running = await runningRecord('own');
  if (!running.ok) return running;
  const log = await openIndexedLog(running.value, { checkedBy: thisBuild });
  const read = await log.read(ahead);
  if (!read.ok) {
    await log.close();
    return read;
  }
  const { events, told = 0 } = read;
  return { ok: true, log, events, told, clock: new RunningClock(time) };
}

/** Invented when it is opened first, then kept, so that what was tried out in it is still there. */
async function openInvented(time: TimeSource): Promise<OpenedLog> {
  const kept = await openIndexedLog('invented', { checkedBy: thisBuild });
  const read = await kept.read();
  const { inventedEvents, momentToShow } = await import('./invented-events.ts');
  if (read.ok && read.events.length > 0) {
    return opened(kept, read.events, momentToShow(read.events), time);
  }
  const events = inventedEvents();
  const appended = await kept.append(events);
  if (appended.ok) return opened(kept, events, momentToShow(events), time);
  // It can be looked at without being kept.
  await kept.close();
  const log = new MemoryLog();
  await log.append(events);
  return opened(log, events, momentToShow(events), time);
}

function opened(
  log: EventLog,
  events: readonly LoggedEvent[],
  start_ms: number,
  time: TimeSource,
): OpenedLog {
  return { ok: true, log, events, clock: new SteppedClock(time, start_ms) };
}
