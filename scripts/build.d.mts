export const DIST: string;
export function ensureBuilt(): void;
