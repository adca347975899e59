// What the page may do, told twice: in the page itself and in what serves it. Nothing from elsewhere, nothing inline.
export const policy = [
  "default-src 'none'",
  // WebAssembly is made at run time for the rows of a report; it allows no other code to be made.
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "connect-src 'self' blob: data:",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

/** By name: what the server says with every file. A page can't forbid by itself that others frame it. */
export const headers = {
  'content-security-policy': `${policy}; frame-ancestors 'none'`,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  // a camera for photos and slips, a meter on a serial port: this page may ask for them, nothing inside of it may
  'permissions-policy': 'camera=(self), serial=(self), microphone=(), geolocation=(), payment=(), usb=()',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
}
