import { randomBytes, randomUUID } from 'node:crypto';
import * as z from 'zod/mini';
import type { SeasonEvent } from '../../src/core/domain/event.ts';
import { NestId } from '../../src/core/domain/nest.ts';
import { type EventBody, writeEvent } from '../../src/core/log/write-event.ts';
import type { Role } from '../../src/hub/access/role.ts';
import { JoinAnswer, PageAnswer, ReceiptAnswer } from '../../src/hub/http/shapes.ts';

/** What a hub answered. */
export interface Answer {
  readonly status: number;
  readonly body: unknown;
  readonly headers: Headers;
}

const Told = z.object({ error: z.object({ code: z.string(), message: z.string() }) });

/** The code of a refusal; throws when it is none. */
export function codeIn({ body }: Answer): string {
  return Told.parse(body).error.code;
}

/** Somebody who speaks to a hub, with or without a key. */
export class Guest {
  readonly address: string;
  readonly #key: string | null;

  constructor(address: string, key: string | null = null) {
    this.address = address;
    this.#key = key;
  }

  get(path: string, headers: Record<string, string> = {}): Promise<Answer> {
    return this.ask(path, { headers });
  }

  post(path: string, body: unknown, headers: Record<string, string> = {}): Promise<Answer> {
    return this.ask(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...headers },
      body: typeof body === 'string' ? body : JSON.stringify(body),
    });
  }

  async ask(
    path: string,
    { headers, ...options }: Omit<RequestInit, 'headers'> & { headers: Record<string, string> },
  ): Promise<Answer> {
    const bearer = this.#key === null ? {} : { authorization: `Bearer ${this.#key}` };
    const response = await fetch(new URL(path, this.address), {
      ...options,
      headers: { ...bearer, ...headers },
    });
    const text = await response.text();
    let body: unknown = text;
    try {
      body = JSON.parse(text);
    } catch {
      // A file of the app, or a stream.
    }
    return { status: response.status, body, headers: response.headers };
  }

  /** Listens for changes; counts them, and tells when the line has ended. */
  async listen(): Promise<{ heard: () => number; ended: Promise<void>; stop: () => void }> {
    const stop = new AbortController();
    const response = await fetch(new URL('api/changes', this.address), {
      headers: { authorization: `Bearer ${this.#key}` },
      signal: stop.signal,
    });
    let text = '';
    const ended = (async () => {
      try {
        for await (const part of response.body!) text += Buffer.from(part).toString();
      } catch {
        // The line was cut.
      }
    })();
    const heard = () => text.split('event: changed').length - 1;
    return { heard, ended, stop: () => stop.abort() };
  }
}

let minute = Date.parse('2026-07-20T22:00:00Z');

/** A device that has joined a hub. */
export class HubDevice extends Guest {
  readonly person: string;
  readonly device: string;
  readonly key: string;

  constructor(address: string, key: string, person: string, device: string) {
    super(address, key);
    this.key = key;
    this.person = person;
    this.device = device;
  }

  /** The same device at another hub process. */
  at(address: string): HubDevice {
    return new HubDevice(address, this.key, this.person, this.device);
  }

  /** An event that this device writes. */
  write(body: EventBody, by: { author?: string; device?: string } = {}): SeasonEvent {
    minute += 60_000;
    const { person: author, device } = this;
    return writeEvent(body, {
      now_ms: minute,
      random: randomBytes(16),
      author,
      device,
      zone: 'America/New_York',
      ...by,
    }).event;
  }

  note(remark = 'still', nest = 'N-1'): SeasonEvent {
    return this.write({ kind: 'visit-noted', nest: NestId.parse(nest), details: { note: remark } });
  }

  nest(name: string): SeasonEvent {
    return this.write({ kind: 'nest-registered', nest: NestId.parse(name), details: {} });
  }

  async send(
    events: readonly unknown[],
    more: { carried?: readonly unknown[]; team?: string } = {},
  ): Promise<z.infer<typeof ReceiptAnswer>> {
    const answer = await this.post('api/events', { events, ...more });
    if (answer.status !== 200) throw new Error(`${answer.status}: ${JSON.stringify(answer.body)}`);
    return ReceiptAnswer.parse(answer.body);
  }

  async page(after: string | null = null, limit?: number): Promise<z.infer<typeof PageAnswer>> {
    const query = new URLSearchParams({
      ...(after === null ? {} : { after }),
      ...(limit === undefined ? {} : { limit: String(limit) }),
    });
    const answer = await this.get(`api/events?${query}`);
    if (answer.status !== 200) throw new Error(`${answer.status}: ${JSON.stringify(answer.body)}`);
    return PageAnswer.parse(answer.body);
  }

  /** All that it can read, page by page, and where that ends. */
  async readAll(after: string | null = null, limit?: number) {
    const events: z.infer<typeof PageAnswer>['events'] = [];
    let cursor = after;
    for (;;) {
      const page = await this.page(cursor, limit);
      events.push(...page.events);
      cursor = page.cursor;
      if (!page.more) return { events, cursor, ids: idsOf(events.map(({ event }) => event)) };
    }
  }
}

const Named = z.object({ id: z.string() });

export function idsOf(events: readonly unknown[]): string[] {
  return events.map((event) => Named.parse(event).id);
}

/** Joins by an invitation, as a phone would. */
export async function joinBy(
  address: string,
  invitation: string,
  person: string,
  device: string = randomUUID(),
): Promise<HubDevice> {
  const answer = await new Guest(address).post('api/join', { invitation, person, device });
  if (answer.status !== 200) throw new Error(`${answer.status}: ${JSON.stringify(answer.body)}`);
  const joined = JoinAnswer.parse(answer.body);
  return new HubDevice(address, joined.key, joined.person, joined.device);
}

const Invited = z.object({ invitation: z.string() });

/** Lets a lead invite somebody, who joins. */
export async function invited(
  lead: Guest,
  role: Role,
  person: string,
  teams: readonly string[] = [],
): Promise<HubDevice> {
  const answer = await lead.post('api/invitations', { role, teams });
  if (answer.status !== 200) throw new Error(`${answer.status}: ${JSON.stringify(answer.body)}`);
  return joinBy(lead.address, Invited.parse(answer.body).invitation, person);
}
