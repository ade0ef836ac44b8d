import type { SeasonEvent } from '../../core/domain/event.ts';
import { eventsInText } from '../../core/log/checked-text.ts';
import { foldOn } from '../../core/log/fold.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { Answer, Asked, Question, Reply, SeasonChange } from './forecast-messages.ts';
import { Reckoner } from './reckoner.ts';
import { withNames } from './sent-forecast.ts';

interface Held {
  readonly key: number;
  readonly record: SeasonRecord;
  readonly reckoner: Reckoner;
}

/** The worker's side: keeps a record of its own from the events it is sent, and answers from it. */
export class ForecastDesk {
  #held: Held | null = null;

  answer({ id, season, question }: Asked): Reply {
    try {
      this.#held = carriedOn(this.#held, season);
      return { id, ok: true, answer: answerTo(question, this.#held) };
    } catch (error) {
      return { id, ok: false, message: error instanceof Error ? error.message : String(error) };
    }
  }
}

function carriedOn(held: Held | null, change: SeasonChange): Held {
  const { key, begins, zone } = change;
  if (!begins && held?.key !== key) {
    throw new RangeError('The season was not taken in whole; it will be told again.');
  }
  const before = held !== null && !begins ? held : { record: null, reckoner: new Reckoner() };
  const record = foldOn(before.record, eventsOf(change), zone);
  return { key, record, reckoner: before.reckoner };
}

function eventsOf({ added, texts }: SeasonChange): readonly SeasonEvent[] {
  if (texts === undefined) return added;
  const decoder = new TextDecoder();
  return [...texts.flatMap((text) => eventsInText(decoder.decode(text))), ...added];
}

function answerTo(question: Question, { record, reckoner }: Held): Answer {
  if (question.kind === 'none') return question;
  const { kind, moment } = question;
  switch (kind) {
    case 'forecast':
      return { kind, forecast: withNames(reckoner.forecast(record, moment)) };
    case 'why':
      return { kind, reasons: reckoner.why(record, moment, question.nest) };
    case 'rest of night':
      return { kind, rest: reckoner.restOfNight(record, moment, question.nest) };
    case 'improve':
      return {
        kind,
        improved: reckoner.improve(record, moment, question.finished),
        archive: reckoner.archive,
      };
    case 'learned':
      return { kind, learned: reckoner.learned(record, moment) };
  }
}
