/** Find, notes and the page of a concept, by hand in a real browser. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { openApp, PHONE } from './harness/open-app';

async function openDemo(page: Page): Promise<string> {
  await page.getByRole('button', { name: /Look at the demo/ }).click();
  await page.getByRole('note').filter({ hasText: 'All of it is invented' }).waitFor();
  return page.url().replace(/#.*$/, '');
}

describe('the find box', () => {
  it('finds as typed on any screen, across spellings, and opens a result beside the list by keys', async () => {
    const { page } = await openApp();
    await openDemo(page);
    const box = page.getByRole('searchbox');
    await box.fill('bicarb');
    await page.getByText(/^\d+ results? among/).waitFor();
    expect(await page.locator('mark').first().innerText()).toMatch(/^bicarb/i);
    expect(await axeViolations(page)).toEqual([]);
    await box.fill('edema');
    await expect.poll(() => page.locator('mark').allInnerTexts()).toContain('oedema');
    await box.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.url()).toContain('open=');
    await box.fill('qzxqzx');
    await page
      .getByText(/[Nn]othing/)
      .first()
      .waitFor();
  });
});

describe('a note', () => {
  it('shows formatted text safely, whatever is pasted, and is found at once', async () => {
    const { page, requests } = await openApp();
    const address = await openDemo(page);
    await page.goto(`${address}#/notes`);
    await page.getByRole('button', { name: 'Write a note' }).click();
    const text = page.getByRole('textbox', { name: /Text|Markdown/ });
    await text.waitFor();
    const attack = [
      '# Gale warning brindlewick',
      '<script>document.title = "run"</script>',
      '<img src="https://example.invalid/x.png" onerror="document.title = \'run\'">',
      '[a link](javascript:document.title="run")',
      '<svg onload="document.title=\'run\'"></svg>',
    ].join('\n\n');
    await text.fill(attack);
    await page.getByRole('heading', { name: 'Gale warning brindlewick' }).waitFor();
    expect(await page.title()).not.toBe('run');
    expect(requests.some((each) => each.includes('example.invalid'))).toBe(false);
    expect(await page.locator('main script, main svg[onload], main [onerror]').count()).toBe(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('searchbox').fill('brindlewick');
    await page.getByText(/^1 result among/).waitFor();
  });
});

describe('the page of a concept', () => {
  it('is read and edited in place on a phone', async () => {
    const { page } = await openApp({ viewport: PHONE, colorScheme: 'dark' });
    const address = await openDemo(page);
    await page.goto(`${address}#/concept/bicarbonate-buffer`);
    await page.getByRole('heading', { level: 1, name: 'Bicarbonate buffer system' }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByLabel('Mnemonic of your own').fill('lungs vent, kidneys spend');
    await page.getByText('saved', { exact: true }).first().waitFor();
    await page.reload();
    await expect
      .poll(() => page.getByLabel('Mnemonic of your own').inputValue())
      .toBe('lungs vent, kidneys spend');
  });
});
