import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';

/** A hub in a process of its own, so that it can be killed. */
export interface HubProcess {
  /** With the closing slash. */
  readonly address: string;
  /** The link for the first lead; null when the programme has one already. */
  readonly leadLink: string | null;
  /** As a power cut would. */
  kill(): Promise<void>;
  stop(): Promise<void>;
}

const longest_ms = 90_000;

/** Starts `firstdark hub` with these arguments and waits until it says where it is. */
export async function startHubProcess(args: readonly string[]): Promise<HubProcess> {
  const program = ['--import', 'tsx', 'src/cli/main.ts', 'hub', ...args];
  const child = spawn(process.execPath, program, { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stdout.on('data', (part: Buffer) => (said += part.toString()));
  child.stderr.on('data', (part: Buffer) => (said += part.toString()));
  const address = await waitFor(
    child,
    () => /The hub is at (\S+)/.exec(said)?.[1],
    () => said,
  );
  const link = /(?:http\S+#\/join\/\S+)/.exec(said)?.[0] ?? null;
  return {
    address,
    leadLink: link,
    kill: () => end(child, 'SIGKILL'),
    stop: () => end(child, 'SIGTERM'),
  };
}

async function waitFor(
  child: ChildProcess,
  find: () => string | undefined,
  said: () => string,
): Promise<string> {
  const until = Date.now() + longest_ms;
  for (;;) {
    const found = find();
    // The link is printed right after the address.
    if (found !== undefined) {
      await new Promise((settle) => setTimeout(settle, 300));
      return found;
    }
    if (child.exitCode !== null || Date.now() > until) {
      child.kill('SIGKILL');
      throw new Error(`The hub did not start. It said: ${said()}`);
    }
    await new Promise((settle) => setTimeout(settle, 50));
  }
}

async function end(child: ChildProcess, signal: 'SIGKILL' | 'SIGTERM'): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = once(child, 'exit');
  child.kill(signal);
  await ended;
}
