/** What a hub answers to a request that it does not serve. */
export interface TurnedAway {
  readonly status: 400 | 401 | 403 | 404 | 409 | 413 | 415 | 429 | 500 | 503;
  /** Few words that a program can compare. */
  readonly code: string;
  /** A sentence that a lead can read: what, why, what to do. */
  readonly message: string;
  /** After how many seconds to ask again. */
  readonly wait_s?: number;
}

/** An outcome that can be expected to be a refusal. */
export type Outcome<Value> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly no: TurnedAway };

export const done = <Value>(value: Value): Outcome<Value> => ({ ok: true, value });

export const turnedAway = (
  status: TurnedAway['status'],
  code: string,
  message: string,
  wait_s?: number,
): { readonly ok: false; readonly no: TurnedAway } => ({
  ok: false,
  no: { status, code, message, ...(wait_s === undefined ? {} : { wait_s }) },
});
