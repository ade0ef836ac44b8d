/** Something the person should know now, with what to do about it. */
export interface Notice {
  /** Two notices of one subject replace each other. */
  readonly subject: string;
  readonly tone: 'problem' | 'done';
  readonly text: string;
  readonly action?: { readonly label: string; readonly run: () => void };
}

/** The message bars at the top of the screen. */
export class Notices {
  #all = $state.raw<readonly Notice[]>([]);

  get all(): readonly Notice[] {
    return this.#all;
  }

  show(notice: Notice): void {
    this.#all = [...this.#all.filter((other) => other.subject !== notice.subject), notice];
  }

  dismiss(subject: string): void {
    this.#all = this.#all.filter((notice) => notice.subject !== subject);
  }
}
