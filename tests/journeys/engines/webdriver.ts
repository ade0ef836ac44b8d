import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findWebKit } from '../../../scripts/engines.mjs';

const LONGEST_START_MS = 60_000;
/** No command of WebDriver takes longer than a script may. */
const LONGEST_COMMAND_MS = 120_000;

/** What a driver says when it cannot do something; `code` is a name of the W3C's list. */
export class DriverError extends Error {
  readonly code: string;
  constructor(code: string, message: string) {
    super(`${code}: ${message}`);
    this.code = code;
  }
}

/** One browser under WebDriver (W3C), with a screen and a home folder of its own. */
export interface DriverSession {
  /** `path` goes on after the session, e.g. `/url`. Throws `DriverError` when it is refused. */
  command(method: 'GET' | 'POST' | 'DELETE', path: string, body?: object): Promise<unknown>;
  /** Where files of this browser may lie; removed with it. */
  readonly folder: string;
  close(): Promise<void>;
}

export interface DriverOptions {
  readonly timezoneId: string;
  readonly colorScheme: 'dark' | 'light';
  readonly proxyPort: number;
}

/** The screen in memory. Its pointer rests in the middle, and the window under it has the focus. */
export const SCREEN = { width: 1400, height: 1100 };

const ENDINGS = ['SIGTERM', 'SIGINT', 'SIGHUP'] as const;

/** The least a window needs beside the page, so that the page can be as narrow as a phone. */
const NARROW_TOOLBAR = `* { min-width: 0; min-height: 0; padding: 0; margin: 0; font-size: 1px;
  border-width: 0; -gtk-icon-transform: scale(0); }`;

const settingsFile = (isDark: boolean): string =>
  `[Settings]
gtk-enable-animations=0
gtk-overlay-scrolling=1
gtk-application-prefer-dark-theme=${isDark ? 1 : 0}
`;

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  await once(server, 'close');
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return address.port;
}

/** Starts a program as the head of a process group, so that all it starts can be ended with it. */
function startGroup(
  program: string,
  args: readonly string[],
  environment: NodeJS.ProcessEnv,
): { child: ChildProcess; end: () => void } {
  const child = spawn(program, args, {
    detached: true,
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
    env: { ...process.env, ...environment },
  });
  const leave = (): void => {
    end();
    process.exit(1);
  };
  const end = (): void => {
    process.removeListener('exit', end);
    for (const signal of ENDINGS) process.removeListener(signal, leave);
    try {
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    } catch {
      // It has ended already.
    }
  };
  process.once('exit', end);
  // Whoever is told to end leaves without an `exit` of its own.
  for (const signal of ENDINGS) process.once(signal, leave);
  return { child, end };
}

/** A screen in memory; gives its name, as in `:99`. */
async function startScreen(program: string): Promise<{ display: string; end: () => void }> {
  const size = `${SCREEN.width}x${SCREEN.height}x24`;
  const args = ['-displayfd', '3', '-screen', '0', size, '-nolisten', 'tcp'];
  const { child, end } = startGroup(program, args, {});
  const [said] = (await once(child.stdio[3] as NodeJS.ReadableStream, 'data', {
    signal: AbortSignal.timeout(LONGEST_START_MS),
  })) as [Buffer];
  return { display: `:${said.toString().trim()}`, end };
}

async function ask(
  address: string,
  method: string,
  body?: object,
  longest_ms = LONGEST_COMMAND_MS,
): Promise<unknown> {
  const answer = await fetch(address, {
    method,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    signal: AbortSignal.timeout(longest_ms),
  });
  const { value } = (await answer.json()) as { value: unknown };
  if (answer.ok) return value;
  const { error = 'unknown error', message = '' } = value as { error?: string; message?: string };
  throw new DriverError(error, message);
}

/** Starts WebKitGTK's own small browser under WebKitWebDriver. Close it, or it stays. */
export async function startWebKit(options: DriverOptions): Promise<DriverSession> {
  const webkit = findWebKit();
  if (webkit === null) {
    throw new Error('No WebKitGTK found. On Debian: apt-get install webkit2gtk-driver xvfb.');
  }
  const folder = await mkdtemp(join(tmpdir(), 'firstdark-webkit-'));
  const config = join(folder, 'config', 'gtk-3.0');
  await mkdir(config, { recursive: true });
  await writeFile(join(config, 'gtk.css'), NARROW_TOOLBAR);
  await writeFile(join(config, 'settings.ini'), settingsFile(options.colorScheme === 'dark'));
  const screen = await startScreen(webkit.screen);
  const port = await freePort();
  const driver = startGroup(webkit.driver, [`--port=${port}`], {
    DISPLAY: screen.display,
    GDK_BACKEND: 'x11',
    GSETTINGS_BACKEND: 'memory',
    GTK_THEME: options.colorScheme === 'dark' ? 'Adwaita:dark' : 'Adwaita',
    HOME: folder,
    NO_AT_BRIDGE: '1',
    TZ: options.timezoneId,
    WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1',
    XDG_CACHE_HOME: join(folder, 'cache'),
    XDG_CONFIG_HOME: join(folder, 'config'),
    XDG_DATA_HOME: join(folder, 'data'),
    XDG_DOWNLOAD_DIR: folder,
    XDG_RUNTIME_DIR: folder,
  });
  const end = async (): Promise<void> => {
    driver.end();
    screen.end();
    await rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  try {
    const root = `http://127.0.0.1:${port}`;
    await untilReady(root);
    const session = (await ask(
      `${root}/session`,
      'POST',
      capabilities(webkit.browser, options),
      LONGEST_START_MS,
    )) as { sessionId: string };
    const address = `${root}/session/${session.sessionId}`;
    await ask(`${address}/timeouts`, 'POST', { script: LONGEST_COMMAND_MS, pageLoad: 60_000 });
    return {
      folder,
      command: (method, path, body) => ask(`${address}${path}`, method, body),
      async close() {
        await ask(address, 'DELETE', undefined, 10_000).catch(() => undefined);
        await end();
      },
    };
  } catch (problem) {
    await end();
    throw problem;
  }
}

function capabilities(browser: string, { proxyPort }: DriverOptions): object {
  const args = ['--automation', `--proxy=http://127.0.0.1:${proxyPort}`, '--autoplay-policy=allow'];
  return {
    capabilities: {
      alwaysMatch: {
        browserName: 'MiniBrowser',
        'webkitgtk:browserOptions': { binary: browser, args },
      },
    },
  };
}

async function untilReady(root: string): Promise<void> {
  const until = Date.now() + LONGEST_START_MS;
  for (;;) {
    try {
      await ask(`${root}/status`, 'GET', undefined, 2000);
      return;
    } catch (problem) {
      if (Date.now() > until) throw problem;
      await new Promise((settle) => setTimeout(settle, 50));
    }
  }
}
