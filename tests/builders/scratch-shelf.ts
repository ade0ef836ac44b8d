import type { TextShelf } from '../../src/edges/store/settings.ts';

/** A shelf for one text, under whatever name, that can be told to be full. */
export class ScratchShelf implements TextShelf {
  text: string | null;
  isFull = false;

  constructor(text: string | null = null) {
    this.text = text;
  }

  getItem(): string | null {
    return this.text;
  }
  setItem(_: string, text: string): void {
    if (this.isFull) throw new DOMException('no room', 'QuotaExceededError');
    this.text = text;
  }
  removeItem(): void {
    this.text = null;
  }
}
