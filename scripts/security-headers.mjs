// What a browser may do with the app: nothing that is not ours, nothing inline, no other origin.
// The server here and the hub send these; the build writes the policy into index.html for other hosts.

/**
 * Content-Security-Policy by directive. `wasm-unsafe-eval` is for the roster's solver alone. Where the
 * browser guards scripts and markup (W3C Trusted Types), a plain text becomes neither: the two policies
 * named are Svelte's own, for the markup of compiled templates, and `src/app/wiring/own-script.ts`.
 */
const POLICY = {
  'default-src': "'self'",
  'script-src': "'self' 'wasm-unsafe-eval'",
  'style-src': "'self'",
  'img-src': "'self' data: blob:",
  'connect-src': "'self'",
  'worker-src': "'self'",
  'object-src': "'none'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'frame-ancestors': "'none'",
  'require-trusted-types-for': "'script'",
  'trusted-types': 'firstdark-own-script svelte-trusted-html',
};

/** Browsers ignore these in a <meta> and warn on the console. */
const HEADER_ONLY = new Set(['frame-ancestors']);

/** The policy as one line; `inMeta` leaves out what only a header can say. */
export function contentSecurityPolicy({ inMeta = false } = {}) {
  return Object.entries(POLICY)
    .filter(([directive]) => !(inMeta && HEADER_ONLY.has(directive)))
    .map(([directive, sources]) => `${directive} ${sources}`)
    .join('; ');
}

/** What the app asks of the device, in the words of Permissions-Policy. */
export const USED_FEATURES = [
  'microphone',
  'camera',
  'geolocation',
  'screen-wake-lock',
  // The compass, for the bearings of tracks.
  'accelerometer',
  'gyroscope',
  'magnetometer',
  // What each cue sounds like, under "help"; a plan or an invitation to be pasted elsewhere.
  'autoplay',
  'clipboard-write',
];

/** Everything else that browsers let a page ask for. One that a browser does not know it ignores. */
export const UNUSED_FEATURES = [
  'aria-notify',
  'bluetooth',
  'browsing-topics',
  'captured-surface-control',
  'clipboard-read',
  'compute-pressure',
  'cross-origin-isolated',
  'deferred-fetch',
  'deferred-fetch-minimal',
  'digital-credentials-create',
  'digital-credentials-get',
  'display-capture',
  'encrypted-media',
  'fullscreen',
  'gamepad',
  'hid',
  'identity-credentials-get',
  'idle-detection',
  'keyboard-map',
  'language-detector',
  'language-model',
  'local-fonts',
  'local-network-access',
  'midi',
  'on-device-speech-recognition',
  'otp-credentials',
  'payment',
  'picture-in-picture',
  'publickey-credentials-create',
  'publickey-credentials-get',
  'serial',
  'speaker-selection',
  'storage-access',
  'summarizer',
  'sync-xhr',
  'translator',
  'usb',
  'window-management',
  'xr-spatial-tracking',
];

/** Headers that go with every answer. */
export const SECURITY_HEADERS = {
  'Content-Security-Policy': contentSecurityPolicy(),
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': [
    ...USED_FEATURES.map((feature) => `${feature}=(self)`),
    ...UNUSED_FEATURES.map((feature) => `${feature}=()`),
  ].join(', '),
};
