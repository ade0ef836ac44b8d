export interface Served {
  /** With the closing slash, e.g. `http://127.0.0.1:4173/`. */
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}
export function fileFor(folder: string, requestPath: string): string | null;
export function serveFolder(
  folder: string,
  options?: { port?: number; host?: string; tries?: number },
): Promise<Served>;
