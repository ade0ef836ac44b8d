import type * as z from 'zod/mini';
import type {
  Batch,
  Hub,
  HubAnswer,
  HubProblem,
  Page,
  Receipt,
} from '../../core/replication/hub.ts';
import { whyBeyondJson } from '../../core/log/beyond-json.ts';
import { clockGap_ms } from '../../core/replication/clock-gap.ts';
import { readEvent } from '../../core/log/upcast.ts';
import {
  DevicesAnswer,
  ErrorAnswer,
  InvitationAnswer,
  InvitationsAnswer,
  JoinAnswer,
  MeAnswer,
  PageAnswer,
  ReceiptAnswer,
  RevokedAnswer,
  TeamsAnswer,
} from './answers.ts';

/** How long one question may take on a bad line before it is asked again later. */
const patience_ms = 30_000;

export interface HttpHubOptions {
  /** Where the hub is, such as `https://turtles.example/`. */
  readonly address: string;
  /** The device's key; null before it has joined. */
  readonly key: string | null;
  readonly now_ms: () => number;
  /** Told after every answer how far this device's clock is ahead, milliseconds; null: it is right. */
  readonly clockGap?: (gap_ms: number | null) => void;
  readonly fetch?: typeof fetch;
}

/** A hub by HTTPS. Nothing is thrown: every failure is a problem that says what to do. */
export class HttpHub implements Hub {
  readonly #options: HttpHubOptions;
  readonly #fetch: typeof fetch;

  constructor(options: HttpHubOptions) {
    this.#options = options;
    this.#fetch = options.fetch ?? ((...args) => fetch(...args));
  }

  send({ events, carried }: Batch): Promise<HubAnswer<Receipt>> {
    return this.#ask(ReceiptAnswer, 'POST', 'api/events', { events, carried });
  }

  async after(cursor: string | null): Promise<HubAnswer<Page>> {
    const query = cursor === null ? '' : `?after=${encodeURIComponent(cursor)}`;
    const answer = await this.#ask(PageAnswer, 'GET', `api/events${query}`);
    if (!answer.ok) return answer;
    const events = answer.value.events.map(({ event, brought_by }) => ({
      logged: readEvent(event),
      broughtBy: brought_by,
    }));
    return { ok: true, value: { ...answer.value, events } };
  }

  /** Uses an invitation up; gives the key, which the hub does not show again. */
  join(invitation: string, person: string, device: string, label: string) {
    return this.#ask(JoinAnswer, 'POST', 'api/join', { invitation, person, device, label });
  }

  /** As whom the hub knows this device. */
  me() {
    return this.#ask(MeAnswer, 'GET', 'api/me');
  }

  devices() {
    return this.#ask(DevicesAnswer, 'GET', 'api/devices');
  }

  revoke(device: string) {
    const path = `api/devices/${encodeURIComponent(device)}/revoke`;
    return this.#ask(RevokedAnswer, 'POST', path, {});
  }

  teams() {
    return this.#ask(TeamsAnswer, 'GET', 'api/teams');
  }

  invitations() {
    return this.#ask(InvitationsAnswer, 'GET', 'api/invitations');
  }

  invite(role: string, teams: readonly string[], person: string | null, expires_h: number) {
    const named = person === null ? {} : { person };
    return this.#ask(InvitationAnswer, 'POST', 'api/invitations', {
      role,
      teams,
      expires_h,
      ...named,
    });
  }

  /**
   * Calls back whenever the hub has something new, until `signal` says enough or the line breaks;
   * gives why it ended, null when it was asked to.
   */
  async changes(changed: () => void, signal: AbortSignal): Promise<HubProblem | null> {
    try {
      const response = await this.#fetch(this.#at('api/changes'), {
        headers: { ...this.#bearer(), accept: 'text/event-stream' },
        cache: 'no-store',
        signal,
      });
      if (!response.ok || response.body === null) return await problemOf(response);
      const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
      let line = '';
      for (;;) {
        const { done, value } = await reader.read();
        if (done) return outOfReach;
        line += value;
        const ends = line.lastIndexOf('\n');
        if (line.slice(0, ends + 1).includes('event: changed')) changed();
        line = line.slice(ends + 1);
      }
    } catch {
      return signal.aborted ? null : outOfReach;
    }
  }

  async #ask<Schema extends z.ZodMiniType>(
    schema: Schema,
    method: 'GET' | 'POST',
    path: string,
    body?: unknown,
  ): Promise<HubAnswer<z.infer<Schema>>> {
    const sent_ms = this.#options.now_ms();
    let response: Response;
    let text: string;
    try {
      response = await this.#fetch(this.#at(path), {
        method,
        headers: {
          ...this.#bearer(),
          accept: 'application/json',
          ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
        cache: 'no-store',
        credentials: 'omit',
        redirect: 'error',
        signal: AbortSignal.timeout(patience_ms),
      });
      this.#judgeClock(response, sent_ms);
      if (!response.ok) return { ok: false, problem: await problemOf(response) };
      text = await response.text();
    } catch {
      return { ok: false, problem: outOfReach };
    }
    const read = schema.safeParse(parsed(text));
    return read.success ? { ok: true, value: read.data } : { ok: false, problem: notUnderstood };
  }

  #at(path: string): string {
    return new URL(path, this.#options.address).href;
  }

  #bearer(): Record<string, string> {
    const { key } = this.#options;
    return key === null ? {} : { authorization: `Bearer ${key}` };
  }

  #judgeClock(response: Response, sent_ms: number): void {
    const hub_ms = Date.parse(response.headers.get('firstdark-now') ?? '');
    if (Number.isNaN(hub_ms)) return;
    this.#options.clockGap?.(clockGap_ms(sent_ms, this.#options.now_ms(), hub_ms));
  }
}

const outOfReach: HubProblem = {
  kind: 'out of reach',
  message: 'The hub cannot be reached from here. Everything stays on this device until it can.',
};

const notUnderstood: HubProblem = {
  kind: 'failed',
  message:
    'What answered there is not a Firstdark hub that this version understands. Reload the app; if that does not help, ask whoever runs the hub.',
};

async function problemOf(response: Response): Promise<HubProblem> {
  const told = ErrorAnswer.safeParse(parsed(await response.text().catch(() => '')));
  if (!told.success) return response.status >= 500 ? outOfReach : notUnderstood;
  const { code, message } = told.data.error;
  const wait_s = Number(response.headers.get('retry-after'));
  const wait = wait_s > 0 ? { wait_s } : {};
  return { kind: kindOf(response.status, code), message, ...wait };
}

function kindOf(status: number, code: string): HubProblem['kind'] {
  if (code === 'cursor unknown') return 'cursor unknown';
  if (status === 401) return 'shut out';
  if (status === 413) return 'too large';
  if (status === 429) return 'busy';
  return status >= 500 ? 'out of reach' : 'failed';
}

function parsed(text: string): unknown {
  try {
    const json: unknown = JSON.parse(text);
    // Events lie a few levels down in an answer.
    return whyBeyondJson(json) === null ? json : null;
  } catch {
    return null;
  }
}
