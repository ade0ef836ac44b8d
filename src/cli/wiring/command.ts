/** What a command may use of the world; tests pass their own. */
export interface CommandIo {
  /** Standard output and standard error, one text a call, line ends included by the caller. */
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly now_ms: () => number;
  /** IANA name of the machine's time zone. */
  readonly zone: string;
}

/** One command of the command line; each has its file in `commands`. */
export interface Command {
  readonly name: string;
  /** What stands after `firstdark` in the usage text, such as `check FOLDER [--json]`. */
  readonly usage: string;
  readonly summary: string;
  /** Gives the exit code: 0 done, 1 the input has errors. Throws `WrongUsage` for the rest. */
  readonly run: (args: readonly string[], io: CommandIo) => Promise<number>;
}

/** The command was called in a way it does not understand; ends with exit code 2 and the usage. */
export class WrongUsage extends Error {}
