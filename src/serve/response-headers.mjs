// What every answer of the static server carries: the kind of file, how long it may be kept, and
// what the page may do.
import path from 'node:path';

/** Kinds of file a build of this app can hold. Anything else is sent as plain bytes. */
const KINDS = new Map([
  ['.css', 'text/css; charset=utf-8'],
  ['.csv', 'text/csv; charset=utf-8'],
  ['.html', 'text/html; charset=utf-8'],
  ['.ico', 'image/x-icon'],
  ['.js', 'text/javascript; charset=utf-8'],
  ['.json', 'application/json'],
  ['.mjs', 'text/javascript; charset=utf-8'],
  ['.png', 'image/png'],
  ['.svg', 'image/svg+xml'],
  ['.txt', 'text/plain; charset=utf-8'],
  ['.wasm', 'application/wasm'],
  ['.webmanifest', 'application/manifest+json'],
  ['.woff', 'font/woff'],
  ['.woff2', 'font/woff2'],
]);

/**
 * The page may load from its own address only, and send nothing anywhere else: the log stays on
 * the device even if a fault let foreign text into the page. Inline styles are allowed because
 * chart and map positions are set on elements; inline scripts are not.
 */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "worker-src 'self' blob:",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** The bundler puts a hash of the contents into these names, so the contents never change. */
const HASHED_ASSET = /^\/assets\/.+-[\w-]{8}\.\w+$/;

/**
 * Returns the headers for one file.
 *
 * @param {string} place path of the file, as in the address
 * @returns {Record<string, string>}
 */
export function responseHeaders(place) {
  return {
    'Content-Type': KINDS.get(path.extname(place).toLowerCase()) ?? 'application/octet-stream',
    'Cache-Control': HASHED_ASSET.test(place)
      ? 'public, max-age=31536000, immutable'
      : // Asked for anew each time, so that the next build is seen at once.
        'no-cache',
    'Content-Security-Policy': CONTENT_SECURITY_POLICY,
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Referrer-Policy': 'no-referrer',
    'X-Content-Type-Options': 'nosniff',
  };
}
