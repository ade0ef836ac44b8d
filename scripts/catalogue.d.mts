/** One text of a catalogue: what stands in the code, and what is shown for it. */
export interface Entry {
  /** Which of its meanings it is, where the English text has several; else empty. */
  readonly context: string;
  readonly english: string;
  readonly shown: string;
  /** Where it stands in the code, by paths from the project's root. */
  readonly files: readonly string[];
}
export function entriesOf(catalogue: string): readonly Entry[];
/** The words of one text as they stand in the code, before a catalogue takes the spaces off. */
export type Said = Pick<Entry, 'english' | 'files'>;
export function spacedAtEnds(said: readonly Said[]): readonly string[];
export function missingFrom(kept: readonly Entry[], wanted: readonly Entry[]): readonly string[];
