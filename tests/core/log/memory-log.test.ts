import { MemoryLog } from '../../../src/core/log/memory-log.ts';
import { eventLogSuite } from '../../suites/event-log-suite.ts';

eventLogSuite('in memory', () =>
  Promise.resolve({ open: () => Promise.resolve(new MemoryLog()), isShared: false }),
);
