import { closeSync, fsyncSync, openSync } from 'node:fs';
import type { PGlite } from '@electric-sql/pglite';
import { NodeFS } from '@electric-sql/pglite/nodefs';
import * as z from 'zod/mini';

type EngineOptions = Parameters<NodeFS['init']>[1];

/** What is used of the file system that Emscripten lays over a folder. */
interface FolderSystem {
  stream_ops: { fsync?: (stream: OpenFile) => number };
  realPath: (node: unknown) => string;
}

interface OpenFile {
  /** The file's descriptor in this process; a folder has none. */
  readonly nfd?: number;
  readonly node: unknown;
}

const WithFolders = z.looseObject({
  NODEFS: z.custom<FolderSystem>(
    (value: unknown) => typeof value === 'object' && value !== null && 'stream_ops' in value,
  ),
});

/**
 * A folder for PGlite on which `fsync` means it. As delivered, PGlite runs with `fsync=off` over a
 * layer that has none, so that a power cut loses what was committed and may spoil the rest.
 */
export class DurableFolder extends NodeFS {
  override async init(
    pg: PGlite,
    options: EngineOptions,
  ): Promise<{ emscriptenOpts: EngineOptions }> {
    const { emscriptenOpts } = await super.init(pg, options);
    const giveFsync = (module: unknown): void => {
      const { NODEFS } = WithFolders.parse(module);
      NODEFS.stream_ops.fsync = ({ nfd, node }) => {
        const file = nfd ?? openSync(NODEFS.realPath(node), 'r');
        try {
          fsyncSync(file);
        } finally {
          if (nfd === undefined) closeSync(file);
        }
        return 0;
      };
    };
    const before = [emscriptenOpts.preRun ?? []].flat();
    return { emscriptenOpts: { ...emscriptenOpts, preRun: [...before, giveFsync] } };
  }
}
