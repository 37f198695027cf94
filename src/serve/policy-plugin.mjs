// Writes the content security policy into the built page, for whoever serves the build otherwise.
import { CONTENT_SECURITY_POLICY } from './response-headers.mjs';

/** The directives that a page may not set for itself (W3C, "Content Security Policy Level 3", 3.3). */
const HEADER_ONLY = /^(frame-ancestors|report-uri|sandbox)\b/;

/** What stands in the page: the server's policy without what only a header can say. */
export const PAGE_POLICY = CONTENT_SECURITY_POLICY.split('; ')
  .filter((directive) => !HEADER_ONLY.test(directive))
  .join('; ');

/**
 * A Vite plugin: the policy is the first thing in the head, before anything it governs. In the
 * build only: the development server needs scripts of its own.
 *
 * @returns {{ name: string, apply: 'build', transformIndexHtml(): { tag: string, attrs: Record<string, string>, injectTo: 'head-prepend' }[] }}
 */
export function policy() {
  return {
    name: 'hypocentre-policy',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: PAGE_POLICY },
        injectTo: 'head-prepend',
      },
    ],
  };
}
