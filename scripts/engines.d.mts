export function findFirefox(): string | null;
export function findWebKit(): {
  readonly driver: string;
  readonly screen: string;
  readonly browser: string;
} | null;
export function missingEngines(): readonly string[];
export function ensureEngines(): readonly string[];
