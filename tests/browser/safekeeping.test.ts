/** Backups, restore, two devices, a granted folder, no network: by hand, in a real browser. */
import { cp, mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { inject, describe, expect, it, onTestFinished } from 'vitest';
import { serveFolder } from '../../src/serve/static-server.mjs';
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

describe('without a network', () => {
  it('opens every screen after the first visit, with the server gone', async () => {
    const server = await serveFolder(inject('distFolder'));
    onTestFinished(() => server.close());
    const { page, faults, context } = await openApp({ url: server.url, offline: true });
    await beginEmpty(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await page.getByRole('navigation', { name: 'Screens' }).waitFor();
    await server.close();
    await page.reload();
    await page.getByRole('navigation', { name: 'Screens' }).waitFor();
    for (const [place, name] of [
      ['#/log', 'Log'],
      ['#/roots', 'Roots'],
      ['#/log/bring-in', 'Bring in results'],
      ['#/safekeeping', 'Safekeeping'],
      ['#/about', 'About'],
    ] as const) {
      await goTo(page, place);
      await page.getByRole('heading', { level: 1, name }).waitFor();
    }
    await addBlock(page, 'written at sea');
    expect(await sourcesOf(page)).toEqual(['written at sea']);
    await context.close();
    expect(faults).toEqual([]);
  });

  it('offers a new version and takes it only when told to', async () => {
    const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-dist-'));
    onTestFinished(() => rm(folder, { recursive: true, force: true }));
    await cp(inject('distFolder'), folder, { recursive: true });
    const server = await serveFolder(folder);
    onTestFinished(() => server.close());
    const { page } = await openApp({ url: server.url, offline: true });
    await beginEmpty(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();

    // A new build, as far as the browser can see: another page and another version.
    const { writeFile } = await import('node:fs/promises');
    const index = path.join(folder, 'index.html');
    const page2 = (await readFile(index, 'utf8')).replace(
      '</head>',
      '<meta name="build" content="2"></head>',
    );
    await writeFile(index, page2);
    const worker = path.join(folder, 'sw.js');
    await writeFile(
      worker,
      (await readFile(worker, 'utf8')).replace(/VERSION = "\w+"/, 'VERSION = "second"'),
    );

    const build = () =>
      page
        .locator('meta[name="build"]')
        .getAttribute('content', { timeout: 500 })
        .catch(() => null);
    await page.reload();
    await page.getByText('A new version of Hypocentre is ready.').waitFor();
    expect(await build()).toBeNull();
    await page.getByRole('button', { name: 'Take it now' }).click();
    await expect.poll(build).toBe('2');
  });
});
