import { randomStream } from '../../src/core/numerics/random.ts';
import type { Importer, Outcome } from './importer.ts';

/** What became of one input. */
export interface Fed {
  readonly bytes: number;
  /** Of the processor: how busy the machine is besides does not count. */
  readonly took_ms: number;
  readonly outcome: Outcome | { readonly broken: string };
}

/** Input number `at` of a seed, read; the same seed and number give the same input on any machine. */
export async function feed(importer: Importer, seed: number, at: number): Promise<Fed> {
  const luck = randomStream(seed, importer.name, at);
  const input = importer.make(luck);
  const before = process.cpuUsage();
  let outcome: Fed['outcome'];
  try {
    outcome = await importer.read(input, luck);
  } catch (error) {
    const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
    outcome = { broken: why.split('\n').slice(0, 4).join(' ').slice(0, 500) };
  }
  const { user, system } = process.cpuUsage(before);
  const took_ms = (user + system) / 1000;
  return { bytes: input.length, took_ms, outcome };
}
