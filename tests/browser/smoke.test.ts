/** The built app opens, at both sizes and in both colour schemes, with nothing going wrong. */
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { DESKTOP, openApp, PHONE } from './harness/open-app';

describe('the built app in an empty profile', () => {
  it.each([
    { name: 'a desktop window, light', viewport: DESKTOP, colorScheme: 'light' as const },
    { name: 'a phone-sized window, dark', viewport: PHONE, colorScheme: 'dark' as const },
  ])('opens in $name with a heading and without a fault', async ({ viewport, colorScheme }) => {
    const { page } = await openApp({ viewport, colorScheme });
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    expect(await page.title()).toContain('Hypocentre');
    expect(await axeViolations(page)).toEqual([]);
    const overflowPx = await page.evaluate(
      () => document.documentElement.scrollWidth - window.innerWidth,
    );
    expect(overflowPx).toBeLessThanOrEqual(0);
  });
});
