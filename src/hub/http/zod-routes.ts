import type {
  FastifyBaseLogger,
  FastifyInstance,
  FastifyTypeProvider,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import * as z from 'zod/mini';

/** Routes whose `schema` is written with zod: it types what they read and answer. */
export interface ZodProvider extends FastifyTypeProvider {
  validator: this['schema'] extends z.core.$ZodType ? z.core.output<this['schema']> : unknown;
  serializer: this['schema'] extends z.core.$ZodType ? z.core.input<this['schema']> : unknown;
}

export type HubServer = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodProvider
>;

/** A request whose body, query or path does not fit; `message` says where and what was expected. */
export class DoesNotFit extends Error {}

/** Lets a server read requests by the zod schemas of its routes. */
export function useZod(server: HubServer): void {
  server.setValidatorCompiler<unknown>(({ schema }) => (data: unknown) => {
    if (!(schema instanceof z.core.$ZodType)) return { value: data };
    const read = z.core.safeParse(schema, data);
    if (read.success) return { value: read.data };
    const [first] = read.error.issues;
    const path = first?.path.join('.') ?? '';
    const place = path === '' ? 'The request' : path;
    return { error: new DoesNotFit(`${place}: ${first?.message ?? 'not readable'}`) };
  });
  server.setSerializerCompiler(() => (data) => JSON.stringify(data));
}

/** The JSON Schema of a zod schema, for the description of the routes. */
export function jsonSchema(schema: z.core.$ZodType, io: 'input' | 'output'): object {
  const { $schema: _, ...described } = z.toJSONSchema(schema, { io, unrepresentable: 'any' });
  return described;
}
