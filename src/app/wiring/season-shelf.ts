import { MemoryLog } from '../../core/log/memory-log.ts';
import { asNight } from '../../core/domain/night.ts';
import { RunningClock, SteppedClock, type TimeSource } from '../state/clock.svelte.ts';
import { eveningOf } from '../state/evening.ts';
import type { SeasonShelf } from '../state/seasons.svelte.ts';

export function seasonShelf(time: TimeSource): SeasonShelf {
  return {
    async open(name) {
      const log = new MemoryLog();
      if (name === 'own') return { ok: true, log, events: [], clock: new RunningClock(time) };
      const { inventedEvents } = await import('./invented-events.ts');
      const { events, zone, evening } = inventedEvents();
      await log.append(events);
      const clock = new SteppedClock(time, eveningOf(evening ?? asNight(20_650), zone));
      return { ok: true, log, events, clock };
    },
    erase: () => Promise.resolve(null),
  };
}
