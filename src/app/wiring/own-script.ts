/** What is used here of the browser's guard over scripts (W3C Trusted Types). */
interface ScriptGuard {
  createPolicy(
    name: string,
    rules: { createScriptURL: (address: string) => string },
  ): {
    /** Gives a value that the browser takes where it wants the address of a script; else it acts as text. */
    createScriptURL(address: string): string;
  };
}

declare global {
  interface Window {
    readonly trustedTypes?: ScriptGuard;
  }
}

/** The only policy of ours; the security headers name it. */
const policy = window.trustedTypes?.createPolicy('firstdark-own-script', {
  createScriptURL: ownAddress,
});

/**
 * The address of a script of this app, as workers and the service worker are started with: a plain
 * text is refused for them by the security policy. Throws for an address outside the app's folder.
 */
export function ownScript(address: string): string {
  return policy?.createScriptURL(address) ?? ownAddress(address);
}

/**
 * Starts a worker of this app by its address, named after the language that its words are to be in.
 * Throws where the browser has no workers of this kind.
 */
export function ownWorker(address: string): Worker {
  return new Worker(ownScript(address), { type: 'module', name: document.documentElement.lang });
}

function ownAddress(address: string): string {
  const { href } = new URL(address, document.baseURI);
  const folder = new URL('.', document.baseURI).href;
  if (!href.startsWith(folder)) throw new TypeError(`${href} is not a script of this app.`);
  return href;
}
