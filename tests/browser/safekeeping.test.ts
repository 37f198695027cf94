/** Backups, restore, two devices, a granted folder: by hand, in a real browser. */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { axeViolations } from './harness/axe';
import { openApp, PHONE } from './harness/open-app';

async function beginEmpty(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Begin with an empty map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
}

const goTo = (page: Page, place: string) => page.goto(page.url().replace(/#.*$/, '') + place);

async function addBlock(page: Page, source: string): Promise<void> {
  await goTo(page, '#/log');
  await page.getByRole('button', { name: 'New block' }).click();
  const field = page.getByLabel('Where from', { exact: true });
  await field.fill(source);
  await field.locator('xpath=..').getByText('saved', { exact: true }).waitFor();
}

/** Backs up and gives back where the file is. */
async function backUp(page: Page): Promise<string> {
  await goTo(page, '#/safekeeping');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Back up now' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^hypocentre-\d{4}-\d\d-\d\d-\d{4}-\w{1,8}\.zip$/);
  const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-backup-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const file = path.join(folder, download.suggestedFilename());
  await download.saveAs(file);
  return file;
}

async function sourcesOf(page: Page): Promise<string[]> {
  await goTo(page, '#/log');
  await page.getByRole('heading', { level: 1, name: 'Log' }).waitFor();
  return (await page.locator('.source').allInnerTexts()).sort();
}

async function openBackup(page: Page, file: string): Promise<void> {
  await goTo(page, '#/safekeeping');
  await page.getByLabel('Open a backup…').setInputFiles(file);
}

describe('a backup', () => {
  it('brings everything back after it was deleted, and the restore can be taken back', async () => {
    const { page } = await openApp();
    await beginEmpty(page);
    await addBlock(page, 'the lighthouse set');
    const file = await backUp(page);
    await page.getByText('Nothing has changed since.').waitFor();

    await page.getByRole('button', { name: 'Delete everything…' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Delete everything' }).click();
    await beginEmpty(page);
    expect(await sourcesOf(page)).toEqual([]);

    await openBackup(page, file);
    await page.getByRole('rowheader', { name: 'blocks', exact: true }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Merge it' }).click();
    await page.getByText('The backup is in.').waitFor();
    expect(await sourcesOf(page)).toEqual(['the lighthouse set']);

    await goTo(page, '#/safekeeping');
    await page.getByRole('button', { name: /^Take back what was brought in/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click();
    await page.getByText('Everything is as it was before').waitFor();
    expect(await sourcesOf(page)).toEqual([]);
  });

  it('of another device is merged, with what both sides wrote', async () => {
    const one = await openApp();
    await beginEmpty(one.page);
    await addBlock(one.page, 'from the quay');
    const file = await backUp(one.page);
    const two = await openApp({ viewport: PHONE, colorScheme: 'dark' });
    await beginEmpty(two.page);
    await addBlock(two.page, 'from the cabin');
    await openBackup(two.page, file);
    await two.page.getByText('on another device').waitFor();
    expect(await axeViolations(two.page)).toEqual([]);
    await two.page.getByRole('button', { name: 'Merge it' }).click();
    await two.page.getByText('The backup is in.').waitFor();
    expect(await sourcesOf(two.page)).toEqual(['from the cabin', 'from the quay']);
  });

  it('that is cut off says what is missing, and what is no backup changes nothing', async () => {
    const { page } = await openApp();
    await beginEmpty(page);
    await addBlock(page, 'the lighthouse set');
    const whole = await readFile(await backUp(page));
    await page.getByLabel('Open a backup…').setInputFiles({
      name: 'cut.zip',
      mimeType: 'application/zip',
      buffer: whole.subarray(0, Math.floor(whole.length * 0.8)),
    });
    await page.getByText(/cannot be brought in$/).waitFor();
    await page.getByLabel('Open a backup…').setInputFiles({
      name: 'letter.txt',
      mimeType: 'text/plain',
      buffer: Buffer.from('Dear sir'),
    });
    await page.getByRole('alert').filter({ hasText: 'not a backup of Hypocentre' }).waitFor();
    expect(await sourcesOf(page)).toEqual(['the lighthouse set']);
  });
});

describe('a granted folder', () => {
  it('takes backups by itself and forgets none of the newest ten', async () => {
    // The browser's question cannot be answered by a test: its private folder stands in.
    const before = () =>
      Object.assign(window, { showDirectoryPicker: () => navigator.storage.getDirectory() });
    const { page } = await openApp({ before });
    await beginEmpty(page);
    await addBlock(page, 'the lighthouse set');
    await goTo(page, '#/safekeeping');
    await page.getByRole('button', { name: 'Choose a folder for backups…' }).click();
    const names = () =>
      page.evaluate(async () => {
        const found: string[] = [];
        const root = (await navigator.storage.getDirectory()) as unknown as {
          keys(): AsyncIterable<string>;
        };
        for await (const name of root.keys()) found.push(name);
        return found;
      });
    await expect.poll(names).toHaveLength(1);
    await page.locator('.state').filter({ hasText: 'into the folder' }).waitFor();
    await addBlock(page, 'one more');
    await page.reload();
    // Two seconds after the start, with something changed, a backup is made without a word.
    await goTo(page, '#/safekeeping');
    await page.getByText('Nothing has changed since.').waitFor();
  });
});
