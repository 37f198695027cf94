/** The map: drawn, walked by keys, edited and taken back; the same in the tree; accessible. */
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { openApp, PHONE } from './harness/open-app';

async function openMap(options: Parameters<typeof openApp>[0] = {}) {
  const opened = await openApp(options);
  await opened.page.getByRole('button', { name: /Look at the demo/ }).click();
  await opened.page
    .getByRole('list', { name: /^Roots/ })
    .getByRole('listitem')
    .first()
    .waitFor();
  const address = opened.page.url().replace(/#.*$/, '');
  await opened.page.goto(`${address}#/map`);
  return { ...opened, address };
}

describe('the map', () => {
  it('loads cytoscape with this screen only, is walked by keys, edited, and taken back', async () => {
    const { page, requests } = await openMap();
    await page.getByRole('group', { name: 'Organ systems' }).getByRole('button').first().waitFor();
    expect(requests.some((address) => address.includes('section-view'))).toBe(true);
    expect(await axeViolations(page)).toEqual([]);

    const picture = page.getByRole('application', { name: /^The section/ });
    await picture.focus();
    await page.keyboard.press('ArrowDown');
    const panel = page.getByRole('complementary');
    const name = page.locator('#map-concept-name');
    await name.waitFor();
    const first = await name.textContent();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => name.textContent()).not.toBe(first);
    await page.keyboard.press('Enter');
    expect(await name.evaluate((node) => node === document.activeElement)).toBe(true);

    await panel.getByText('Edit', { exact: true }).click();
    await panel.getByLabel(/^Name/).first().fill('A name of my own');
    await panel.getByRole('button', { name: 'Rename' }).click();
    await expect.poll(() => name.textContent()).toBe('A name of my own');
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await expect.poll(() => name.textContent()).not.toBe('A name of my own');
  });

  it('holds the same as a tree and a table, and shows proposals and files, all accessible', async () => {
    const { page, address } = await openMap();
    for (const [view, role] of [
      ['tree', 'tree'],
      ['table', 'table'],
    ] as const) {
      await page.goto(`${address}#/map?view=${view}`);
      await page.getByRole(role).waitFor();
      expect(await axeViolations(page), view).toEqual([]);
    }
    await page.goto(`${address}#/map?view=help`);
    await page.getByRole('heading', { name: /^Missing links/ }).waitFor();
    expect(await axeViolations(page), 'help').toEqual([]);
    await page.goto(`${address}#/map?view=files`);
    await page.getByRole('button', { name: 'SKOS as Turtle' }).waitFor();
    expect(await axeViolations(page), 'files').toEqual([]);
  });

  it('shows one system at a time on a phone', async () => {
    const { page } = await openMap({ viewport: PHONE });
    const select = page.getByRole('combobox', { name: 'System' });
    await select.waitFor();
    const before = await select.inputValue();
    await page.getByRole('button', { name: 'Next system' }).click();
    await expect.poll(() => select.inputValue()).not.toBe(before);
    expect(await axeViolations(page)).toEqual([]);
  });
});
