/** A WAV file of one channel, PCM 16 bits; samples beyond full scale are cut off there. */
export function writeWav(samples: ArrayLike<number>, rate_hz: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(44 + 2 * samples.length);
  const view = new DataView(bytes.buffer);
  const tag = (at: number, text: string): void => {
    for (let letter = 0; letter < 4; letter++) view.setUint8(at + letter, text.charCodeAt(letter));
  };
  tag(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  tag(8, 'WAVE');
  tag(12, 'fmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate_hz, true);
  view.setUint32(28, 2 * rate_hz, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  tag(36, 'data');
  view.setUint32(40, 2 * samples.length, true);
  for (let n = 0; n < samples.length; n++) {
    const level = Math.round((samples[n] ?? 0) * 2 ** 15);
    view.setInt16(44 + 2 * n, Math.max(-(2 ** 15), Math.min(2 ** 15 - 1, level)), true);
  }
  return bytes;
}
