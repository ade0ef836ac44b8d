/** A short recording that somebody asked for; it stays on this device. */
export interface Clip {
  readonly id: string;
  readonly nest: string;
  /** The note it belongs to, by its event; null when none was made. */
  readonly note: string | null;
  readonly at_ms: number;
  readonly seconds: number;
  /** A WAV file. */
  readonly sound: Uint8Array<ArrayBuffer>;
}

/** All clips together may not be larger than this. */
export const mostClipBytes = 20 * 2 ** 20;
/** One clip is no longer than this. */
export const longestClip_s = 20;

export type ClipKept = { readonly ok: true } | { readonly ok: false; readonly message: string };

/** Where clips are kept. None of it is in the record, in a backup or on another device. */
export interface ClipShelf {
  all(): Promise<readonly Clip[]>;
  keep(clip: Clip): Promise<ClipKept>;
  drop(id: string): Promise<void>;
}
