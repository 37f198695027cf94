/** Asks axe-core, an accessibility checker, about a page. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * One line for every part of the page that breaks a rule of axe-core; empty when it found none.
 *
 * The checker goes in by the debugger and not as a script element, which the content security
 * policy forbids: so the page is checked under the same policy as the reader's.
 *
 * @param options axe-core's own, to leave out a rule or part of the page, with a reason
 *
 * @example
 * expect(await axeViolations(page)).toEqual([]);
 */
export async function axeViolations(page: Page, options: RunOptions = {}): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) {
    const session = await page.context().newCDPSession(page);
    await session.send('Runtime.evaluate', { expression: source });
    await session.detach();
  }
  const results = await page.evaluate(
    (given) =>
      (window as unknown as { axe: { run: (options: object) => Promise<AxeResults> } }).axe.run(
        given,
      ),
    // All rules run; only for those broken are all the places written out, which halves the time.
    { resultTypes: ['violations'], ...options } as object,
  );
  // A check that looked at nothing must not pass for a clean page.
  if (results.passes.length === 0) throw new Error('axeViolations: axe-core checked nothing');
  return results.violations.flatMap((violation) =>
    violation.nodes.map(
      (node) =>
        `${violation.id} (${violation.impact ?? 'no impact'}): ${violation.help}: ${node.target.join(' ')}`,
    ),
  );
}
