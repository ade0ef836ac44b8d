import type { MappingMemory } from './mapping-memory.ts';

/** Files as a person handed them over, by name; a .zip or a workbook stands for what is in it. */
export type OpenedFiles =
  | { readonly ok: true; readonly files: ReadonlyMap<string, Uint8Array> }
  | { readonly ok: false; readonly message: string };

/** The way in and out for files, on the day screen only: pickers and downloads are white. */
export interface FileDesk {
  /** From a picker. */
  open(files: Iterable<File>): Promise<OpenedFiles>;
  /** From a drop: files, folders, a .zip, a workbook. */
  openDropped(transfer: DataTransfer): Promise<OpenedFiles>;
  /** Gives a file to the person. */
  save(name: string, type: string, content: string | Uint8Array): void;
  /** How tables were matched before; read when first needed. */
  readonly mappings: () => Promise<MappingMemory>;
  /** One .zip out of several files. */
  zip(files: ReadonlyMap<string, string>): Promise<Uint8Array>;
}
