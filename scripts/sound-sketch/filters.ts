/** Second-order filters after Bristow-Johnson's cookbook (from memory), run over a whole sound. */
type Kind = 'low-pass' | 'high-pass' | 'peak';

export function filter(
  samples: Float64Array,
  rate_hz: number,
  kind: Kind,
  at_hz: number,
  q = Math.SQRT1_2,
): Float64Array {
  if (at_hz >= rate_hz / 2) return kind === 'high-pass' ? samples.map(() => 0) : samples;
  const w = (2 * Math.PI * at_hz) / rate_hz;
  const alpha = Math.sin(w) / (2 * q);
  const cos = Math.cos(w);
  const a0 = 1 + alpha;
  const b = feedForward(kind, cos, alpha);
  const out = new Float64Array(samples.length);
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (let n = 0; n < samples.length; n++) {
    const x = samples[n]!;
    const y = (b[0] * x + b[1] * x1 + b[2] * x2 + 2 * cos * y1 - (1 - alpha) * y2) / a0;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    out[n] = y;
  }
  return out;
}

function feedForward(kind: Kind, cos: number, alpha: number): readonly [number, number, number] {
  switch (kind) {
    case 'low-pass':
      return [(1 - cos) / 2, 1 - cos, (1 - cos) / 2];
    case 'high-pass':
      return [(1 + cos) / 2, -(1 + cos), (1 + cos) / 2];
    case 'peak':
      return [alpha, 0, -alpha];
  }
}

/** What a telephone or contact microphone laid in the open passes on. */
export function openMicrophone(samples: Float64Array, rate_hz: number): Float64Array {
  return filter(filter(samples, rate_hz, 'high-pass', 120), rate_hz, 'low-pass', 6500);
}

/** What the head and tube of a stethoscope pass on: some 80-2500 Hz, ringing a little at 350 Hz (G). */
export function stethoscope(samples: Float64Array, rate_hz: number): Float64Array {
  const low = filter(filter(samples, rate_hz, 'low-pass', 2500), rate_hz, 'low-pass', 2800);
  const passed = filter(low, rate_hz, 'high-pass', 80);
  const ring = filter(passed, rate_hz, 'peak', 350, 3);
  return passed.map((sample, n) => sample + 1.2 * ring[n]!);
}
