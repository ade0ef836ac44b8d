import { createHash, randomBytes } from 'node:crypto';

/** The two secrets of a hub; their first letters say which one lies before you. */
const shapes = {
  key: { prefix: 'fd1_', bytes: 32 },
  invitation: { prefix: 'fdi1_', bytes: 24 },
} as const;

/** Draws a new secret. It is told once; the hub keeps its hash. */
export function newSecret(kind: keyof typeof shapes): string {
  const { prefix, bytes } = shapes[kind];
  return prefix + randomBytes(bytes).toString('base64url');
}

/** SHA-256 in hexadecimal: of 192 random bits and more no slower hash is needed. */
export function hashOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}
