import { changesCases } from './changes-cases.ts';
import { joiningCases } from './joining-cases.ts';
import { recordCases } from './record-cases.ts';
import { sqlCases } from './sql-cases.ts';
import type { Database } from '../../src/hub/database/database.ts';

/** A hub that runs, and the database behind it. */
export interface Given {
  readonly database: Database;
  /** With the closing slash. */
  readonly address: string;
}

/** The rules of a hub, whatever database is behind it. Each test has a programme of its own. */
export function hubSuite(given: () => Given): void {
  joiningCases(given);
  recordCases(given);
  changesCases(given);
  sqlCases(given);
}
