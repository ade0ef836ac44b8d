import { NestId } from '../../core/domain/nest.ts';
import type { NestRecord, SeasonRecord } from '../../core/log/season-record.ts';

/** The nest that an address names; undefined when it names none, or one that is not on record. */
export function nestNamed(record: SeasonRecord, name: string | null): NestRecord | undefined {
  const id = NestId.safeParse(name);
  return id.success ? record.nests.get(id.data) : undefined;
}
