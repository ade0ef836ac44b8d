import { windows1252 } from './windows-1252.ts';

/** The part of the standard TextDecoder that is used here; it is in browsers and in Node alike. */
declare const TextDecoder: new (
  label: string,
  options?: { readonly fatal?: boolean },
) => { decode(bytes: Uint8Array): string };

/** The text of a file, and how its bytes had to be read. */
export interface Decoded {
  readonly text: string;
  readonly encoding: 'UTF-8' | 'UTF-16' | 'Windows-1252';
}

/**
 * Text from bytes: UTF-8 with or without a byte order mark, UTF-16 when it bears its mark (some
 * spreadsheets save "Unicode text" so), else Windows-1252, of which Latin-1 is a part and in which
 * every byte is a letter. The mark itself is not part of the text.
 */
export function decode(bytes: Uint8Array): Decoded {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) {
    return { text: new TextDecoder('utf-16le').decode(bytes), encoding: 'UTF-16' };
  }
  if (bytes[0] === 0xfe && bytes[1] === 0xff) {
    return { text: new TextDecoder('utf-16be').decode(bytes), encoding: 'UTF-16' };
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'UTF-8' };
  } catch {
    return {
      text: windows1252(new TextDecoder('windows-1252').decode(bytes)),
      encoding: 'Windows-1252',
    };
  }
}
