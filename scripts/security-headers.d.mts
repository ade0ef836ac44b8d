export function contentSecurityPolicy(options?: { inMeta?: boolean }): string;
export const USED_FEATURES: readonly string[];
export const UNUSED_FEATURES: readonly string[];
export const SECURITY_HEADERS: Readonly<Record<string, string>>;
