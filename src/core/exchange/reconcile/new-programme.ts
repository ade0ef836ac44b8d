import type { EventOf, SeasonEvent } from '../../domain/event.ts';
import { byWriting, writtenAt } from '../../log/order.ts';
import type { SeasonRecord } from '../../log/season-record.ts';
import { PROGRAMME_FILE, programmeEvent } from '../season-folder/programme-file.ts';
import { sameProgramme } from '../season-folder/write-season-folder.ts';

/**
 * The description of the programme that a season which was read adds to a record: none when it
 * says what stands, or what was imported before somebody changed it by hand.
 */
export function newProgramme(
  read: readonly SeasonEvent[],
  record: SeasonRecord,
  who: {
    readonly author: string;
    readonly device: string;
    readonly zone: string;
    readonly now_ms: number;
  },
): readonly EventOf<'programme-described'>[] {
  const theirs = read.find((event) => event.kind === 'programme-described');
  if (theirs === undefined) return [];
  const held = [...record.events.values()]
    .filter((event) => event.kind === 'programme-described')
    .sort((a, b) => byWriting(writtenAt(a), writtenAt(b)));
  const last = held.at(-1);
  if (last === undefined) return [theirs];
  if (sameProgramme(theirs.programme, record.programme)) return [];
  const lastImported = held.filter((event) => event.source !== undefined).at(-1);
  if (lastImported !== undefined && sameProgramme(theirs.programme, lastImported.programme)) {
    return [];
  }
  const text = theirs.source?.text?.[PROGRAMME_FILE] ?? '';
  return [programmeEvent({ programme: theirs.programme, text }, who, who.now_ms)];
}
