import { download } from '../../edges/files/download.ts';
import { droppedFiles, pickedFiles, readGivenFiles } from '../../edges/files/dropped-files.ts';
import type { FileDesk } from '../state/file-desk.ts';

/** Files by the browser's own pickers, drops and downloads. */
export const browserFiles: FileDesk = {
  open: (files) => readGivenFiles(pickedFiles(files)),
  openDropped: async (transfer) => readGivenFiles(await droppedFiles(transfer)),
  save: (name, type, content) => {
    download(name, content, type);
  },
  mappings: async () => {
    const { KeptMappings } = await import('../../edges/store/kept-mappings.ts');
    return new KeptMappings();
  },
  async zip(files) {
    const { packZip } = await import('../../edges/files/pack-zip.ts');
    return packZip(files, Date.now());
  },
};
