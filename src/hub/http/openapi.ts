import swagger from '@fastify/swagger';
import * as z from 'zod/mini';
import { type HubServer, jsonSchema } from './zod-routes.ts';

/** Describes the routes that are added after it; served at /api/openapi.json. */
export async function describeRoutes(server: HubServer): Promise<void> {
  await server.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Firstdark hub',
        version: '1',
        description:
          'One record for many devices. Every answer carries the clock of the hub in the header firstdark-now.',
      },
      components: {
        securitySchemes: { key: { type: 'http', scheme: 'bearer', description: 'fd1_…' } },
      },
    },
    transform: ({ schema, url }) => ({ url, schema: described(schema) }),
  });
}

/** Parts of a route's schema that hold a zod schema each. */
const ASKED = ['body', 'querystring', 'params'] as const;

function described(schema: object | undefined): Record<string, unknown> {
  const parts: Record<string, unknown> = { ...schema };
  for (const part of ASKED) {
    const asked = parts[part];
    if (asked instanceof z.core.$ZodType) parts[part] = jsonSchema(asked, 'input');
  }
  const answers = z.record(z.string(), z.unknown()).safeParse(parts['response']);
  if (answers.success) {
    parts['response'] = Object.fromEntries(
      Object.entries(answers.data).map(([status, answer]) => [
        status,
        answer instanceof z.core.$ZodType
          ? { description: 'as asked', ...jsonSchema(answer, 'output') }
          : answer,
      ]),
    );
  }
  return parts;
}
