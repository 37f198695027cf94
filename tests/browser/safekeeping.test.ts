/** Backups, restore, two devices, a granted folder: by hand, in a real browser. */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { filesInPrivateFolder } from './faults/stored';
import { openApp } from './harness/open-app';

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

describe('a backup', () => {
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
  it('takes backups by itself, says when it could not, and when the browser wants to be asked again', async () => {
    // The browser's question cannot be answered by a test: its private folder stands in.
    const before = () =>
      Object.assign(window, { showDirectoryPicker: () => navigator.storage.getDirectory() });
    const { page } = await openApp({ before });
    await beginEmpty(page);
    await addBlock(page, 'the lighthouse set');
    await goTo(page, '#/safekeeping');
    await page.getByRole('button', { name: 'Choose a folder for backups…' }).click();
    await expect.poll(async () => (await filesInPrivateFolder(page)).length).toBe(1);
    await page.locator('.state').filter({ hasText: 'into the folder' }).waitFor();
    await addBlock(page, 'one more');
    await page.reload();
    // Two seconds after the start, with something changed, a backup is made without a word.
    await goTo(page, '#/safekeeping');
    await page.getByText('Nothing has changed since.').waitFor();

    await page.evaluate(() => {
      FileSystemDirectoryHandle.prototype.getFileHandle = () =>
        Promise.reject(new DOMException('gone', 'NotFoundError'));
    });
    await page.getByRole('button', { name: /^Back up into/ }).click();
    const failed = page.getByText(/could not be written into .+ Is the folder still there/);
    await failed.first().waitFor();
    await page.getByText('The last backup into the folder was not made.').waitFor();

    // As after the browser was closed: its leave has lapsed, and only a press of a button renews it.
    await page.addInitScript(() => {
      Object.assign(FileSystemDirectoryHandle.prototype, {
        queryPermission: () => Promise.resolve('prompt'),
        requestPermission: () => Promise.resolve('granted'),
      });
    });
    await addBlock(page, 'a third');
    await page.reload();
    await page.getByText(/wants to be asked again before backups go into/).waitFor();
    await page.getByRole('button', { name: 'Back up now' }).first().click();
    await page.getByText(/^The folder “.+” has a new backup\.$/).waitFor();
  });
});

describe('the browser’s promise not to clear the log', () => {
  it('is asked for once, after the first entry of one’s own, never before and never for the demo', async () => {
    const before = () => {
      if (!isSecureContext) return; // the empty page before the app
      const count = () => Number(localStorage.getItem('asked') ?? 0);
      StorageManager.prototype.persisted = () => Promise.resolve(false);
      StorageManager.prototype.persist = () => {
        localStorage.setItem('asked', String(count() + 1));
        return Promise.resolve(false);
      };
    };
    const { page } = await openApp({ before });
    /** What waits for the first screen to settle begins with fetching its part of the app. */
    const settled = () =>
      page.waitForFunction(() =>
        performance.getEntriesByType('resource').some(({ name }) => /\/keeping-/.test(name)),
      );
    const asked = () => page.evaluate(() => Number(localStorage.getItem('asked') ?? 0));
    await page.getByRole('button', { name: /^Look at the demo/ }).click();
    await page.getByRole('note').filter({ hasText: 'All of it is invented' }).waitFor();
    await settled();
    expect(await asked()).toBe(0);
    await goTo(page, '#/about');
    await page.getByRole('button', { name: 'Leave the demo' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Leave the demo' }).click();
    await beginEmpty(page);
    expect(await asked()).toBe(0);
    await addBlock(page, 'the lighthouse set');
    await expect.poll(asked).toBe(1);
    await page.reload();
    await settled();
    await addBlock(page, 'one more');
    expect(await asked()).toBe(1);
  });
});
