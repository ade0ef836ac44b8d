import type { Mapping } from '../../core/exchange/mapping/mapping.ts';

/** How tables with the same headings were matched before, on this device. */
export interface MappingMemory {
  /** Null when no such table was matched before. */
  recall(headings: string): Mapping | null;
  keep(headings: string, mapping: Mapping): void;
  forget(headings: string): void;
}
