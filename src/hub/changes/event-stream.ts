import type { ServerResponse } from 'node:http';

/** A comment at least this often, so that neither side takes a quiet line for a dead one, milliseconds. */
const ping_ms = 25_000;
/** `changed` at most this often on one line, milliseconds. */
const spacing_ms = 300;

/** Server-sent events (HTML Living Standard, section 9.2) on one response. */
export class EventStream {
  readonly #response: ServerResponse;
  readonly #pinging: NodeJS.Timeout;
  #soonest_ms = 0;
  #waiting: NodeJS.Timeout | null = null;

  constructor(response: ServerResponse, headers: Readonly<Record<string, string>>) {
    this.#response = response;
    response.writeHead(200, {
      ...headers,
      'content-type': 'text/event-stream; charset=utf-8',
      'cache-control': 'no-store',
      // A proxy that gathers answers would hold the news back.
      'x-accel-buffering': 'no',
    });
    this.#pinging = setInterval(() => response.write(': here\n\n'), ping_ms);
    response.on('close', () => this.end());
  }

  /** Says that there is something new: at once, or when the last time is long enough ago. */
  changed(): void {
    if (this.#waiting !== null || this.#response.writableEnded) return;
    const wait_ms = Math.max(0, this.#soonest_ms - performance.now());
    if (wait_ms === 0) this.#say();
    else this.#waiting = setTimeout(() => this.#say(), wait_ms);
  }

  end(): void {
    clearInterval(this.#pinging);
    if (this.#waiting !== null) clearTimeout(this.#waiting);
    this.#response.end();
  }

  #say(): void {
    this.#waiting = null;
    this.#soonest_ms = performance.now() + spacing_ms;
    this.#response.write('event: changed\ndata: {}\n\n');
  }
}
