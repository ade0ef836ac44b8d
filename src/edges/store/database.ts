import { type IDBPDatabase, openDB } from 'idb';
import type { LogProblem } from '../../core/log/event-log.ts';
import { nameOf, problemOfStore, problems } from './store-problem.ts';
import { type UpgradeStep, checkUpgradeSteps, upgradeSteps } from './upgrade-steps.ts';

type Opening =
  | { readonly ok: true; readonly connection: IDBPDatabase }
  | { readonly ok: false; readonly problem: LogProblem };

export type Done<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problem: LogProblem };

/**
 * One connection of this page to its database. It makes way for a newer version of the page, comes
 * back once when the browser has shut it, and gives every failure as a value.
 */
export class Database {
  readonly name: string;
  readonly #steps: readonly UpgradeStep[];
  readonly #told = new Set<() => void>();
  #opening: Promise<Opening> | null = null;
  #blocked = false;
  /** Set when no later try can succeed in this page. */
  #over: LogProblem | null = null;

  constructor(name: string, steps: readonly UpgradeStep[] = upgradeSteps) {
    checkUpgradeSteps(steps);
    this.name = name;
    this.#steps = steps;
  }

  /** Calls back when this page has lost its connection for good. Gives the way to stop. */
  onOver(told: () => void): () => void {
    this.#told.add(told);
    return () => this.#told.delete(told);
  }

  /** Opens the connection if it is not open; while another tab blocks it, says so without waiting. */
  async open(): Promise<Opening> {
    if (this.#over !== null) return { ok: false, problem: this.#over };
    if (this.#opening === null) this.#opening = this.#connect();
    else if (this.#blocked) return { ok: false, problem: problems.blocked };
    return this.#opening;
  }

  /** Does something with the connection; when it turns out to be shut, once more with a new one. */
  async use<Value>(work: (connection: IDBPDatabase) => Promise<Value>): Promise<Done<Value>> {
    for (let attempt = 1; ; attempt++) {
      const opened = await this.open();
      if (!opened.ok) return opened;
      try {
        return { ok: true, value: await work(opened.connection) };
      } catch (error) {
        if (this.#over !== null) return { ok: false, problem: this.#over };
        const isShut = nameOf(error) === 'InvalidStateError';
        if (!isShut || attempt > 1) return { ok: false, problem: problemOfStore(error) };
        this.#opening = null;
      }
    }
  }

  /** Ends the use of this database in this page, for the reason given. */
  end(problem: LogProblem): void {
    this.#over = problem;
    void this.#opening?.then((opened) => {
      if (opened.ok) opened.connection.close();
    });
    for (const told of [...this.#told]) told();
  }

  #connect(): Promise<Opening> {
    return new Promise((settle) => {
      const opened = this.#request(() => {
        this.#blocked = true;
        settle({ ok: false, problem: problems.blocked });
      }).then((outcome) => {
        this.#blocked = false;
        // Kept for later calls, also when this one was told that it is blocked.
        this.#opening = outcome.ok ? Promise.resolve(outcome) : null;
        return outcome;
      });
      void opened.then(settle);
    });
  }

  async #request(blocked: () => void): Promise<Opening> {
    let held: IDBPDatabase | null = null;
    try {
      // Asking for it throws where site data are forbidden.
      if (typeof indexedDB === 'undefined') return { ok: false, problem: problems.missing };
      held = await openDB(this.name, this.#steps.length, {
        upgrade: (database, from, _, transaction) => {
          // Its failure also fails the opening, which is where it is told.
          transaction.done.catch(() => undefined);
          for (const step of this.#steps) if (step.to > from) step.run(database);
        },
        blocked,
        blocking: (_, version) => {
          held?.close();
          this.end(version === null ? problems.erased : problems.outdated);
        },
        terminated: () => {
          this.#opening = null;
        },
      });
      if (this.#over === null) return { ok: true, connection: held };
      held.close();
      return { ok: false, problem: this.#over };
    } catch (error) {
      return { ok: false, problem: openingProblem(error) };
    }
  }
}

/** Some browsers refuse a store in a private window only once it is opened. */
function openingProblem(error: unknown): LogProblem {
  return nameOf(error) === 'InvalidStateError' ? problems.missing : problemOfStore(error);
}

/** The database of this page. */
export const pageDatabase = new Database('firstdark');
