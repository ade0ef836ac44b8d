import type { SeasonEvent } from '../../core/domain/event.ts';
import type { Problem } from '../../core/exchange/problem.ts';
import { fold } from '../../core/log/fold.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { OpenedFiles } from './file-desk.ts';

export type ReadFinished =
  | {
      readonly ok: true;
      readonly events: readonly SeasonEvent[];
      readonly record: SeasonRecord;
      /** Rows left out, and what is odd but taken. */
      readonly problems: readonly Problem[];
    }
  | { readonly ok: false; readonly message: string };

/** A season folder read by itself, to be kept as a finished season. */
export async function readFinished(
  opening: Promise<OpenedFiles>,
  who: {
    readonly zone: string;
    readonly author: string;
    readonly device: string;
    readonly now_ms: number;
  },
): Promise<ReadFinished> {
  try {
    const opened = await opening;
    if (!opened.ok) return opened;
    const { readSeasonFolder } =
      await import('../../core/exchange/season-folder/read-season-folder.ts');
    const { events, problems } = readSeasonFolder(opened.files, who);
    const record = fold(events, who.zone);
    if (record.nests.size === 0) {
      const [first] = problems;
      const why = first === undefined ? '' : ` ${first.file}: ${first.message}`;
      return { ok: false, message: `No nest could be read from these files.${why}` };
    }
    return { ok: true, events, record, problems };
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    return { ok: false, message: `The files could not be read: ${said}` };
  }
}
