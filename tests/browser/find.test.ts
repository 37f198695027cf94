/** Find, notes and the page of a concept, by hand in a real browser. */
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { PHONE } from './harness/open-app';
import { openDemo } from './harness/open-demo';

describe('the find box', () => {
  it('finds as typed on any screen, across spellings, and opens a result beside the list by keys', async () => {
    const { page } = await openDemo();
    const box = page.getByRole('searchbox');
    await box.fill('bicarb');
    await page.getByText(/^\d+ results? among/).waitFor();
    expect(await page.locator('mark').first().innerText()).toMatch(/^bicarb/i);
    expect(await axeViolations(page)).toEqual([]);
    await box.fill('edema');
    await expect.poll(() => page.locator('mark').allInnerTexts()).toContain('oedema');
    await box.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.locator('#opened-name:focus').waitFor();
    await page.keyboard.press('Escape');
    await page.locator('[data-find-result]:focus').waitFor();
    expect(page.url()).not.toContain('open=');
    await page.getByLabel('Exactly this phrase').fill('pulmonary oedema');
    await page.keyboard.press('Tab');
    await expect.poll(() => box.inputValue()).toBe('edema "pulmonary oedema"');
    await box.fill('qzxqzx');
    await page.getByText(/^Nothing fits “qzxqzx”\. Looked through \d+ concepts, /).waitFor();
  });
});

describe('a note', () => {
  it('shows formatted text safely, whatever is pasted, and is found at once', async () => {
    const { page, requests, address } = await openDemo();
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

  it('holds a picture and a formula, and gives back after a reload what was taken out before it', async () => {
    const { page, address } = await openDemo();
    await page.goto(`${address}#/note/demo-note-gap`);
    const text = page.getByRole('textbox', { name: 'Text' });
    await text.waitFor();
    const before = await text.inputValue();
    await page.getByText('Pictures', { exact: true }).click();
    await page.locator('main input[type="file"]').setInputFiles({
      name: 'dot.png',
      mimeType: 'image/png',
      // One white pixel.
      buffer: Buffer.from(
        'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg==',
        'base64',
      ),
    });
    await page.getByLabel('What does it show?').fill('a white dot');
    await page.getByRole('button', { name: 'Add the picture' }).click();
    await page.getByRole('img', { name: 'a white dot' }).first().waitFor();
    const saved = page.getByText('saved', { exact: true }).first();
    await text.fill('Only $\\frac{1}{2}$ is left');
    await page.locator('#reads math').waitFor();
    await saved.waitFor();
    await page.reload();
    await page.getByText(/^As it was before/).click();
    await page
      .getByRole('button', { name: /^Put back what stood/ })
      .first()
      .click();
    await page.locator('#reads').getByRole('img', { name: 'a white dot' }).waitFor();
    await expect.poll(() => text.inputValue()).toContain(before.trim());
  });
});

describe('the page of a concept', () => {
  it('is read and edited in place on a phone', async () => {
    const { page, address } = await openDemo({ viewport: PHONE, colorScheme: 'dark' });
    await page.goto(`${address}#/concept/bicarbonate-buffer`);
    await page.getByRole('heading', { level: 1, name: 'Bicarbonate buffer system' }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByLabel('Rests on it').getByText('Add a link').click();
    await page.getByLabel('Let it carry').fill('pH, pKa');
    await page.getByRole('option').first().click();
    await page.getByText(/^That would close a loop: pH, pKa and buffers rests on/).waitFor();
    await page.getByLabel('Mnemonic of your own').fill('lungs vent, kidneys spend');
    await page.getByText('saved', { exact: true }).first().waitFor();
    await page.reload();
    await expect
      .poll(() => page.getByLabel('Mnemonic of your own').inputValue())
      .toBe('lungs vent, kidneys spend');
  });
});
