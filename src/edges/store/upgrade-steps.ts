import type { IDBPDatabase } from 'idb';

/** One numbered step that takes a database of the version before to version `to`. */
export interface UpgradeStep {
  readonly to: number;
  readonly name: string;
  readonly run: (database: IDBPDatabase) => void;
}

/** Events lie under [name of the record, id of the event], as they were written. */
export const EVENTS = 'events';
/** The records there are, by name. */
export const RECORDS = 'records';
/** All events once more, many to an entry (`packs.ts`), under [name of the record, id of one of them]. */
export const PACKS = 'packs';

/**
 * Every shape this database has had. A step that has been released is never changed; a new shape is
 * a new step at the end.
 */
export const upgradeSteps: readonly UpgradeStep[] = [
  {
    to: 1,
    name: 'events and the names of records',
    run: (database) => {
      database.createObjectStore(EVENTS);
      database.createObjectStore(RECORDS);
    },
  },
  {
    to: 2,
    name: 'packs of events',
    run: (database) => {
      database.createObjectStore(PACKS);
    },
  },
];

/** Throws unless the steps are numbered 1, 2, 3 ... */
export function checkUpgradeSteps(steps: readonly UpgradeStep[]): void {
  steps.forEach((step, index) => {
    if (step.to !== index + 1) {
      throw new Error(`Upgrade step "${step.name}" is numbered ${step.to}, wanted ${index + 1}.`);
    }
  });
}
