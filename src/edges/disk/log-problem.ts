import type { LogProblem } from '../../core/log/event-log.ts';

/** What a failure of the file system means for the record in a file, and what to do about it. */
export function problemOfDisk(error: unknown, path: string): LogProblem {
  const code = codeOf(error);
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
    case 'EFBIG':
      return {
        kind: 'full',
        message: `There is no room left for ${path} (${code}). Nothing of this was written, and all that was saved before is still there. Free some space and do it again.`,
      };
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return {
        kind: 'failed',
        message: `This user may not write ${path} (${code}). Nothing of this was written. Give the right to write there, or name another file.`,
      };
    case 'EISDIR':
    case 'ENOTDIR':
    case 'EEXIST':
      return {
        kind: 'failed',
        message: `${path} cannot be a file: ${code === 'EISDIR' ? 'a folder has that name' : 'a part of the path is a file'} (${code}). Name another file.`,
      };
    default: {
      const said = error instanceof Error ? error.message : String(error);
      return {
        kind: 'failed',
        message: `${path} could not be used: ${said}. Nothing of this was written. Do it again; if it fails again, name another file.`,
      };
    }
  }
}

/** The code of a failure of Node's file system, such as `ENOENT`; null when it is none. */
export function codeOf(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error)) return null;
  return typeof error.code === 'string' ? error.code : null;
}
