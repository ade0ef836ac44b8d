import type { SeasonEvent } from '../../core/domain/event.ts';
import type { CheckedTexts } from '../../core/log/event-log.ts';
import type { NestId } from '../../core/domain/nest.ts';
import type { Moment, Reason, SeasonForecast } from '../../core/forecast/forecast.ts';
import type { RestOfNight } from '../../core/forecast/rest-of-night.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { Forecaster } from '../state/forecaster.ts';
import type { Answer, Asked, Question, Reply, SeasonChange } from '../workers/forecast-messages.ts';
import type { FinishedEvents } from '../workers/finished-events.ts';
import type { ArchiveInShort, Learned } from '../workers/learned.ts';
import { withRecords } from '../workers/sent-forecast.ts';
import { SeasonSent } from './season-sent.ts';

/** The way to whoever answers, in the order asked, and back. */
export interface ForecastPort {
  send(asked: Asked): void;
  /** `broken`: it could not be started, or is gone; nothing is answered any more. */
  listen(replied: (reply: Reply) => void, broken: () => void): void;
  close(): void;
}

/** Under this number nobody waits for an answer. */
const NOBODY = 0;

interface Pending {
  readonly record: SeasonRecord;
  readonly question: Question;
  /** Whether all of the season was told with it, so that asking it again is of no use. */
  readonly isWhole: boolean;
  readonly resolve: (answer: Answer) => void;
  readonly reject: (reason: Error) => void;
}

/**
 * Has the odds worked out apart from the page. When the port breaks, the one that `instead` gives
 * takes over, with what is still unanswered. After `close` nothing is answered any more.
 */
export class ForecasterApart implements Forecaster {
  #port: ForecastPort;
  #sent = new SeasonSent();
  readonly #pending = new Map<number, Pending>();
  #lastId = 0;
  readonly #finished: () => Promise<readonly FinishedEvents[]>;
  /** Whether whoever answers has been told the finished seasons. */
  #isTold = false;
  #archive: ArchiveInShort | null = null;

  /** `finished` gives the seasons to learn from; it is asked before the first improvement. */
  constructor(
    port: ForecastPort,
    instead: () => ForecastPort,
    finished: () => Promise<readonly FinishedEvents[]> = () => Promise.resolve([]),
  ) {
    this.#port = port;
    this.#finished = finished;
    const take = (reply: Reply): void => {
      this.#take(reply);
    };
    port.listen(take, () => {
      if (this.#port !== port) return;
      port.close();
      this.#port = instead();
      this.#port.listen(take, () => undefined);
      this.#sent = new SeasonSent();
      this.#isTold = false;
      for (const id of this.#pending.keys()) this.#send(id);
    });
  }

  beginAhead(texts: CheckedTexts, zone: string): void {
    this.#tell(() => this.#sent.beginAhead(texts, zone));
  }

  begin(told: readonly SeasonEvent[], more: readonly SeasonEvent[], zone: string): void {
    this.#tell(() => this.#sent.begin(told, more, zone));
  }

  /** Sends a change of the season when nothing is asked yet; what fails is told with a question. */
  #tell(change: () => SeasonChange): void {
    try {
      this.#port.send({ id: NOBODY, season: change(), question: { kind: 'none' } });
    } catch {
      this.#sent.forget();
    }
  }

  async forecast(record: SeasonRecord, moment: Moment): Promise<SeasonForecast> {
    const answer = await this.#ask(record, { kind: 'forecast', moment });
    if (answer.kind !== 'forecast') throw unasked(answer);
    return withRecords(answer.forecast, record);
  }

  async why(record: SeasonRecord, moment: Moment, nest: NestId): Promise<readonly Reason[]> {
    const answer = await this.#ask(record, { kind: 'why', moment, nest });
    if (answer.kind !== 'why') throw unasked(answer);
    return answer.reasons;
  }

  async restOfNight(
    record: SeasonRecord,
    moment: Moment,
    nest: NestId,
  ): Promise<RestOfNight | null> {
    const answer = await this.#ask(record, { kind: 'rest of night', moment, nest });
    if (answer.kind !== 'rest of night') throw unasked(answer);
    return answer.rest;
  }

  async improve(record: SeasonRecord, moment: Moment): Promise<boolean> {
    const finished = this.#isTold ? null : await this.#finished();
    this.#isTold = true;
    const answer = await this.#ask(record, { kind: 'improve', moment, finished });
    if (answer.kind !== 'improve') throw unasked(answer);
    this.#archive = answer.archive;
    return answer.improved;
  }

  /** What the finished seasons taught in short; null before any did. */
  get archive(): ArchiveInShort | null {
    return this.#archive;
  }

  async learned(record: SeasonRecord, moment: Moment): Promise<Learned> {
    const answer = await this.#ask(record, { kind: 'learned', moment });
    if (answer.kind !== 'learned') throw unasked(answer);
    return answer.learned;
  }

  close(): void {
    this.#port.close();
    this.#pending.clear();
  }

  #ask(record: SeasonRecord, question: Question): Promise<Answer> {
    return new Promise((resolve, reject) => {
      const id = ++this.#lastId;
      this.#pending.set(id, { record, question, isWhole: false, resolve, reject });
      this.#send(id);
    });
  }

  #send(id: number): void {
    const pending = this.#pending.get(id);
    if (pending === undefined) return;
    const { record, question, reject } = pending;
    try {
      const season = this.#sent.changeTo(record);
      this.#pending.set(id, { ...pending, isWhole: season.begins });
      this.#port.send({ id, season, question });
    } catch (error) {
      // What was not sent must be told again with the next question.
      this.#sent.forget();
      this.#isTold = false;
      this.#pending.delete(id);
      reject(error instanceof Error ? error : new Error(String(error)));
    }
  }

  #take(reply: Reply): void {
    const pending = this.#pending.get(reply.id);
    if (reply.ok) {
      this.#pending.delete(reply.id);
      pending?.resolve(reply.answer);
      return;
    }
    // Whatever went wrong, what the worker holds is not to be trusted: the next question tells all.
    this.#sent.forget();
    if (pending !== undefined && !pending.isWhole && pending.question.kind !== 'improve') {
      this.#send(reply.id);
      return;
    }
    this.#isTold = false;
    this.#pending.delete(reply.id);
    pending?.reject(new Error(reply.message));
  }
}

function unasked({ kind }: Answer): Error {
  return new Error(`The worker answered another question (${kind}). Reload the page.`);
}
