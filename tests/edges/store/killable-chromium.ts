import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { type BrowserContext, chromium } from 'playwright-core';
import { findChromium } from '../../../scripts/chromium.mjs';

/** A browser with a profile of its own that can be ended as by a flat battery. */
export interface KillableChromium {
  readonly context: BrowserContext;
  /** Ends every process of it at once, with no time to write anything. */
  kill(): Promise<void>;
}

/** Starts Chromium on a profile folder, new or left by an earlier one. */
export async function startChromium(profile: string): Promise<KillableChromium> {
  const executable = findChromium();
  if (executable === null)
    throw new Error('No Chromium found. Install it, or set CHROMIUM to its path.');
  const portFile = join(profile, 'DevToolsActivePort');
  await rm(portFile, { force: true });
  const flags = [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--remote-debugging-port=0',
    `--user-data-dir=${profile}`,
  ];
  const browser = spawn(executable, flags, { detached: true, stdio: 'ignore' });
  const ended = once(browser, 'exit');
  const kill = async (): Promise<void> => {
    if (browser.pid !== undefined && browser.exitCode === null && browser.signalCode === null) {
      process.kill(-browser.pid, 'SIGKILL');
    }
    await ended;
  };
  try {
    const port = await portIn(portFile);
    const connected = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    const [context] = connected.contexts();
    if (context === undefined) throw new Error('Chromium has no profile to work in.');
    return { context, kill };
  } catch (error) {
    await kill();
    throw error;
  }
}

async function portIn(file: string): Promise<number> {
  for (let tries = 0; tries < 600; tries++) {
    const text = await readFile(file, 'utf8').catch(() => '');
    const port = Number(text.split('\n')[0]);
    if (text.includes('\n') && port > 0) return port;
    await pause(50);
  }
  throw new Error('Chromium did not say within 30 s where it listens.');
}
