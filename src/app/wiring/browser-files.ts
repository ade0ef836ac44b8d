import type { FileDesk, OpenedFiles } from '../state/file-desk.ts';

async function open(files: Iterable<File>): Promise<OpenedFiles> {
  const bytes = new Map<string, Uint8Array>();
  for (const file of files) bytes.set(file.name, new Uint8Array(await file.arrayBuffer()));
  return { ok: true, files: bytes };
}

export const browserFiles: FileDesk = {
  open,
  openDropped: (transfer) => open(transfer.files),
  save(name, type, content) {
    const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
    const link = document.createElement('a');
    link.href = url;
    link.download = name;
    link.click();
    URL.revokeObjectURL(url);
  },
  async zip(files) {
    const { zipSync, strToU8 } = await import('fflate');
    return zipSync(Object.fromEntries([...files].map(([name, text]) => [name, strToU8(text)])));
  },
};
