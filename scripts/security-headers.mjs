// What a browser may do with the app: nothing that is not ours, nothing inline, no other origin.
// The server here sends these; the build writes the policy into index.html for other hosts.

/** Content-Security-Policy by directive. `wasm-unsafe-eval` is for the roster's solver alone. */
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

/** Headers that go with every answer. */
export const SECURITY_HEADERS = {
  'Content-Security-Policy': contentSecurityPolicy(),
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': [
    'microphone=(self)',
    'camera=(self)',
    'geolocation=(self)',
    'screen-wake-lock=(self)',
    'accelerometer=(self)',
    'gyroscope=(self)',
    'magnetometer=(self)',
    'payment=()',
    'usb=()',
    'bluetooth=()',
  ].join(', '),
};
