export const FONTS: string;
export function installOnDebian(
  packages: readonly string[],
  purpose: string,
  machine?: {
    readonly isRoot: boolean;
    /** The text of /etc/os-release. */
    readonly osRelease: string;
    readonly apt: (args: readonly string[], longest_ms: number) => boolean;
  },
): boolean;
