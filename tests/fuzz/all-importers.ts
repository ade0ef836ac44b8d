import { hubImporters } from './hub-importers.ts';
import type { Importer } from './importer.ts';
import { recordImporters } from './record-importers.ts';
import { seasonImporters } from './season-importers.ts';
import { sheetImporters } from './sheet-importers.ts';
import { signalImporters } from './signal-importers.ts';

/** Every way by which something from outside comes in. A new one adds its line in one of these. */
export const allImporters: readonly Importer[] = [
  ...seasonImporters,
  ...sheetImporters,
  ...recordImporters,
  ...hubImporters,
  ...signalImporters,
];
