import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { openApp, PHONE } from './harness/open-app';

async function openEmpty(options: Parameters<typeof openApp>[0] = {}) {
  const { page } = await openApp(options);
  await page.getByRole('button', { name: 'Begin with an empty map' }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
  return page;
}

describe('the frame', () => {
  it('lists the keys under "?", gives the focus back, and leaves "?" to the fields', async () => {
    const page = await openEmpty();
    await page.goto(page.url().replace(/#.*$/, '#/about'));
    const light = page.getByRole('radio', { name: 'Light' });
    await light.focus();
    await page.keyboard.press('?');
    const keys = page.getByRole('dialog', { name: 'Keys' });
    await keys.waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await keys.waitFor({ state: 'detached' });
    expect(await light.evaluate((radio) => radio === document.activeElement)).toBe(true);

    await page.getByRole('checkbox', { name: '“?” shows these keys on any screen' }).uncheck();
    const undo = page.getByRole('banner').getByRole('button', { name: 'Undo' });
    await expect.poll(() => undo.getAttribute('title')).toBe('Take back: the key “?”');
    await page.keyboard.press('?');
    await page.getByRole('checkbox', { name: '“?” shows these keys on any screen' }).check();
    expect(await keys.count()).toBe(0);
    // The box is ticked at once, the setting is stored a moment later.
    await expect
      .poll(async () => {
        await page.keyboard.press('?');
        return keys.count();
      })
      .toBe(1);
  });

  it('leads to every screen on a phone, by the bar or one step behind it', async () => {
    const page = await openEmpty({ viewport: PHONE });
    const names = await page
      .getByRole('navigation', { name: 'Screens' })
      .getByRole('link')
      .allInnerTexts();
    expect(names.at(-1)).toBe('More');
    await page.getByRole('link', { name: 'More: all screens' }).click();
    await page.getByRole('heading', { level: 1, name: 'All screens' }).waitFor();
    await page
      .getByRole('main')
      .getByRole('link', { name: /^About/ })
      .click();
    await page.getByRole('heading', { level: 1, name: 'About' }).waitFor();
  });
});
