import type { FastifyBaseLogger, FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { codeOf, databaseTrouble } from '../database/database-trouble.ts';
import type { TurnedAway } from '../turned-away.ts';
import { DoesNotFit } from './zod-routes.ts';

/** The body of every answer that is no success. */
export function refusalBody({ code, message }: TurnedAway) {
  return { error: { code, message } };
}

/** Answers with a refusal. */
export function turnAway(reply: FastifyReply, no: TurnedAway): FastifyReply {
  if (no.wait_s !== undefined) void reply.header('retry-after', String(no.wait_s));
  void reply.header('cache-control', 'no-store');
  // Past the types of the route, which know its answers to what it serves.
  return reply
    .code(no.status)
    .type('application/json; charset=utf-8')
    .serializer((body: unknown) => JSON.stringify(body))
    .send(refusalBody(no));
}

/** What to answer to a request that broke off with an error; unexpected ones are logged. */
export function answerError(
  error: FastifyError | Error,
  request: FastifyRequest,
  reply: FastifyReply,
): FastifyReply {
  return turnAway(reply, refusalOf(error, request.log));
}

function refusalOf(error: Error, log: FastifyBaseLogger): TurnedAway {
  if (error instanceof DoesNotFit) {
    return { status: 400, code: 'bad request', message: `${error.message}.` };
  }
  const asked = ofRequest(codeOf(error));
  if (asked !== null) return asked;
  const trouble = databaseTrouble(error);
  // Of the error its name, code and message: a statement and its parameters stay out of the log.
  const told = { type: error.name, code: codeOf(error), text: error.message };
  if (trouble !== null) {
    log.warn({ trouble: told }, 'database trouble');
    return trouble;
  }
  log.error({ fault: told, at: error.stack?.split('\n').slice(1, 6) }, 'unexpected fault');
  return {
    status: 500,
    code: 'fault',
    message:
      'The hub ran into a fault of its own and kept nothing of this request. Try again later; if it stays, tell whoever runs the hub.',
  };
}

/** Faults of a request that fastify finds before any route sees it. */
function ofRequest(code: string | null): TurnedAway | null {
  switch (code) {
    case 'FST_ERR_CTP_BODY_TOO_LARGE':
      return {
        status: 413,
        code: 'too large',
        message: 'A request holds 1 MB at most. Send the events in smaller batches.',
      };
    case 'FST_ERR_CTP_INVALID_MEDIA_TYPE':
      return {
        status: 415,
        code: 'not json',
        message: 'The hub reads JSON: send it with content-type application/json, not compressed.',
      };
    case 'FST_ERR_CTP_EMPTY_JSON_BODY':
    case 'FST_ERR_CTP_INVALID_JSON_BODY':
    case 'FST_ERR_CTP_INVALID_CONTENT_LENGTH':
    case 'FST_ERR_BAD_URL':
    case 'ERR_INVALID_URL':
      return {
        status: 400,
        code: 'bad request',
        message: 'The request cannot be read: its body is no JSON, or was cut short.',
      };
    default:
      return null;
  }
}
