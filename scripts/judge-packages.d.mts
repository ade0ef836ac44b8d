export interface Lock {
  packages: Record<string, Readonly<Record<string, unknown>>>;
}
export function judgePackages(
  lock: Lock,
  manifest: Readonly<Record<string, unknown>>,
  manifestOf: (path: string) => Readonly<Record<string, unknown>> | null,
): string[];
export function shipped(lock: Lock, manifest: Readonly<Record<string, unknown>>): Set<string>;
