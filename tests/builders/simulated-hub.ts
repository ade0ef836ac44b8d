import { type LoggedEvent, idOf } from '../../src/core/log/event-log.ts';
import { readEvent } from '../../src/core/log/upcast.ts';
import type {
  Batch,
  Hub,
  HubAnswer,
  HubProblem,
  Identity,
  Page,
  Receipt,
  Refusal,
} from '../../src/core/replication/hub.ts';

interface Row {
  readonly logged: LoggedEvent;
  readonly sentBy: string;
}

const lineCut: HubProblem = { kind: 'out of reach', message: 'the line was cut' };

/** A hub in memory, by the rules of the real one: an order of its own, each id once, the first stays. */
export class SimulatedHub {
  rows: Row[] = [];
  pageSize = 7;
  /** Refuses what it says something about. */
  refuse: (logged: LoggedEvent) => Omit<Refusal, 'id'> | null = () => null;

  /**
   * The hub as one device reaches it. `weather` is asked at each question: whether it gets there,
   * is lost on its way back, or arrives twice.
   */
  asReachedBy(
    { person }: Identity,
    weather: () => 'good' | 'lost' | 'answer lost' | 'twice' = () => 'good',
  ): Hub {
    const through = async <Value>(ask: () => HubAnswer<Value>): Promise<HubAnswer<Value>> => {
      await Promise.resolve();
      const today = weather();
      if (today === 'lost') return { ok: false, problem: lineCut };
      const answer = ask();
      if (today === 'answer lost') return { ok: false, problem: lineCut };
      return today === 'twice' ? ask() : answer;
    };
    return {
      send: (batch) => through(() => this.#take(batch, person)),
      after: (cursor) => through(() => this.#page(cursor)),
    };
  }

  /** The hub as it was when it held only its first rows. */
  restoreBackup(rows: number): void {
    this.rows = this.rows.slice(0, rows);
  }

  #take({ events, carried }: Batch, sentBy: string): HubAnswer<Receipt> {
    const kept: string[] = [];
    const known: string[] = [];
    const refused: Refusal[] = [];
    const logged = [...events, ...carried].map(readEvent);
    for (const one of logged.sort((a, b) => (idOf(a) < idOf(b) ? -1 : 1))) {
      const id = idOf(one);
      const no = this.refuse(one);
      if (this.rows.some((row) => idOf(row.logged) === id)) known.push(id);
      else if (no !== null) refused.push({ id, ...no });
      else {
        this.rows.push({ logged: one, sentBy });
        kept.push(id);
      }
    }
    return { ok: true, value: { kept, known, refused } };
  }

  /** A cursor is how many rows were read, and the id of the last. */
  #page(cursor: string | null): HubAnswer<Page> {
    const [read = '0', lastId] = cursor?.split(' ') ?? [];
    const from = Number(read);
    const last = this.rows[from - 1];
    if (from > 0 && (last === undefined || idOf(last.logged) !== lastId)) {
      return { ok: false, problem: { kind: 'cursor unknown', message: 'start again' } };
    }
    const rows = this.rows.slice(from, from + this.pageSize);
    const to = from + rows.length;
    const end = this.rows[to - 1];
    return {
      ok: true,
      value: {
        events: rows.map(({ logged, sentBy }) => ({
          logged,
          broughtBy: logged.state === 'known' && logged.event.author === sentBy ? null : sentBy,
        })),
        cursor: end === undefined ? '0' : `${to} ${idOf(end.logged)}`,
        more: to < this.rows.length,
        behind: this.rows.length - to,
      },
    };
  }
}
