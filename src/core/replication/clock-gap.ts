/** A gap of clocks up to this is of no account. */
const unnoticed_ms = 2 * 60_000;

/**
 * How far this device's clock is ahead of the hub's, milliseconds (negative: behind), from one
 * question and its answer: the hub read its clock between the two, taken as half-way (RFC 5905,
 * section 8, with one stamp for the two of the server). Null when no more than two minutes and half
 * the way there and back: then nothing can be said against it.
 */
export function clockGap_ms(sent_ms: number, received_ms: number, hub_ms: number): number | null {
  const gap_ms = (sent_ms + received_ms) / 2 - hub_ms;
  const doubt_ms = Math.abs(received_ms - sent_ms) / 2;
  return Math.abs(gap_ms) > unnoticed_ms + doubt_ms ? gap_ms : null;
}

/** What to say of a gap: `This phone's clock is 2 h 5 min ahead.` */
export function clockGapText(gap_ms: number): string {
  const minutes = Math.round(Math.abs(gap_ms) / 60_000);
  const [days, hours, rest] = [
    Math.floor(minutes / 1440),
    Math.floor((minutes % 1440) / 60),
    minutes % 60,
  ];
  const parts = [
    days === 0 ? [] : [`${days} d`],
    hours === 0 ? [] : [`${hours} h`],
    rest === 0 || days > 0 ? [] : [`${rest} min`],
  ].flat();
  const gap = parts.join(' ');
  return gap_ms > 0 ? `${gap} ahead` : `${gap} behind`;
}
