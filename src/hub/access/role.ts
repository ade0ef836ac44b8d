import * as z from 'zod/mini';

export const Role = z.enum(['lead', 'sitter', 'permit holder', 'reader']);
export type Role = z.infer<typeof Role>;
