export function contentSecurityPolicy(options?: { inMeta?: boolean }): string;
export const SECURITY_HEADERS: Readonly<Record<string, string>>;
