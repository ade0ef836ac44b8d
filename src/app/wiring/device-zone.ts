let known: string | null = null;

/** The device's own IANA zone. Asked for when first used: it is dear at the start on a slow phone. */
export function deviceZone(): string {
  known ??= Intl.DateTimeFormat().resolvedOptions().timeZone;
  return known;
}
