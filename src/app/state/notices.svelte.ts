/** Something the person should know now, with what to do about it. */
export interface Notice {
  /** Two notices of one subject replace each other. */
  readonly subject: string;
  readonly tone: 'problem' | 'done';
  readonly text: string;
  readonly action?: { readonly label: string; readonly run: () => void };
}

/** How long a bar that only says that something is done stays. */
const done_ms = 12_000;

/** The message bars at the top of the screen. */
export class Notices {
  #all = $state.raw<readonly Notice[]>([]);

  get all(): readonly Notice[] {
    return this.#all;
  }

  /** A problem stays until it is closed; what is merely done goes by itself. */
  show(notice: Notice): void {
    this.#all = [...this.#all.filter((other) => other.subject !== notice.subject), notice];
    if (notice.tone === 'problem' || notice.action !== undefined) return;
    setTimeout(() => {
      this.#all = this.#all.filter((other) => other !== notice);
    }, done_ms);
  }

  dismiss(subject: string): void {
    this.#all = this.#all.filter((notice) => notice.subject !== subject);
  }
}
