/** How long a piece of work took over several runs, and the most memory the process held. */
export interface Measured {
  readonly runs: number;
  readonly median_ms: number;
  readonly fastest_ms: number;
  readonly slowest_ms: number;
  /** The most this process has held at once since it started (resident set), not this work alone. */
  readonly peak_mb: number;
}

export interface MeasureOptions {
  /** Runs that count; at least 1. */
  readonly repeats?: number;
  /** Runs before them that do not, while the engine warms up. */
  readonly warmUps?: number;
}

/** The middle value; of an even number, the mean of the two in the middle. Throws on none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.floor((sorted.length - 1) / 2)];
  if (upper === undefined || lower === undefined) throw new Error('no values to take a median of');
  return (lower + upper) / 2;
}

/** Runs the work a few times and says how long it took. Waits for a promise. */
export async function measure(
  work: () => unknown,
  { repeats = 7, warmUps = 2 }: MeasureOptions = {},
): Promise<Measured> {
  for (let run = 0; run < warmUps; run++) await work();
  const times_ms: number[] = [];
  for (let run = 0; run < Math.max(1, repeats); run++) {
    const from_ms = performance.now();
    await work();
    times_ms.push(performance.now() - from_ms);
  }
  return {
    runs: times_ms.length,
    median_ms: median(times_ms),
    fastest_ms: Math.min(...times_ms),
    slowest_ms: Math.max(...times_ms),
    peak_mb: process.resourceUsage().maxRSS / 1024,
  };
}

/** One line for the terminal. */
export function told(
  name: string,
  { median_ms, fastest_ms, slowest_ms, peak_mb }: Measured,
): string {
  const times = `${median_ms.toFixed(1)} ms (${fastest_ms.toFixed(1)} to ${slowest_ms.toFixed(1)})`;
  return `${name.padEnd(40)} ${times}, peak ${peak_mb.toFixed(0)} MB`;
}
