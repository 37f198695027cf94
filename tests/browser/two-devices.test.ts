/** Safekeeping by hand: out into a file, everything deleted, in again; and two devices that disagree. */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { canonicalText } from '../../src/model/merge';
import { recordKinds, type AnyRecord } from '../../src/model/records';
import { putRecords, stored } from './faults/stored';
import { axeViolations } from './harness/axe';
import { openApp, PHONE } from './harness/open-app';

async function begin(page: Page, choice: RegExp): Promise<void> {
  await page.getByRole('button', { name: choice }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
}

const goTo = (page: Page, place: string) => page.goto(page.url().replace(/#.*$/, '') + place);

async function backUp(page: Page): Promise<Buffer> {
  await goTo(page, '#/safekeeping');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Back up now' }).click();
  return readFile(await (await download).path());
}

async function open(page: Page, name: string, buffer: Buffer): Promise<void> {
  await goTo(page, '#/safekeeping');
  const input = page.locator('input[type="file"]');
  await input.setInputFiles({ name, mimeType: 'application/zip', buffer });
  await page.getByRole('heading', { name }).waitFor();
}

/** A sum of everything a person would see: live records without their stamps. */
async function sumOf(page: Page): Promise<string> {
  const { records } = await stored(page, recordKinds);
  const seen = Object.entries(records).map(([kind, list]) => [
    kind,
    (list as unknown as AnyRecord[])
      .filter(({ stamp }) => !stamp.deleted)
      .map((record) => ({ ...record, stamp: undefined })),
  ]);
  return createHash('sha256').update(canonicalText(seen)).digest('hex');
}

describe('Safekeeping', () => {
  it('brings everything back after everything was deleted, deleting leaves nothing, and a restore can be taken back', async () => {
    const { page } = await openApp({ serviceWorkers: 'allow' });
    await begin(page, /^Begin with the starter map/);
    await goTo(page, '#/log');
    await page.getByRole('button', { name: 'New block' }).click();
    await page.getByLabel('Or type the numbers').fill('3, 12-14');
    await page.getByRole('button', { name: 'Mark as missed' }).click();
    await page.getByRole('button', { name: 'Item 14, missed' }).waitFor();
    const file = await backUp(page);
    await page.getByText('Nothing has changed since.').waitFor();
    const before = await sumOf(page);

    // Something in every corner, or leaving nothing would prove nothing.
    await putRecords(page, 'searchIndex', [{ id: 'part', content: 'Anion gap' }]);
    await putRecords(page, 'pictureBytes', [{ id: 'hash', bytes: 'x' }]);
    const keptFiles = () =>
      page.evaluate(async () => {
        const files = await Promise.all(
          (await caches.keys()).map(async (name) => (await caches.open(name)).keys()),
        );
        return files.flat().length;
      });
    await expect.poll(keptFiles, { timeout: 20_000 }).toBeGreaterThan(20);
    await page.getByRole('button', { name: 'Delete everything…' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Delete everything' }).click();
    await page.getByRole('button', { name: 'Open a backup' }).waitFor();
    await page.getByText('Everything was deleted from this device.').waitFor();
    const left = await page.evaluate(async () => {
      const opening = indexedDB.open('hypocentre');
      await new Promise((resolve) => (opening.onsuccess = resolve));
      const db = opening.result;
      const counts: Record<string, number> = {};
      for (const name of db.objectStoreNames) {
        const request = db.transaction(name).objectStore(name).count();
        await new Promise((resolve) => (request.onsuccess = resolve));
        if (request.result > 0) counts[name] = request.result;
      }
      db.close();
      return {
        counts,
        caches: await caches.keys(),
        workers: (await navigator.serviceWorker.getRegistrations()).length,
        strings: localStorage.length + sessionStorage.length,
        databases: (await indexedDB.databases()).map(({ name }) => name),
        spare: await spareNames(),
      };

      async function spareNames(): Promise<string[]> {
        const root = await navigator.storage.getDirectory();
        const spare = (await root.getDirectoryHandle('spare')) as unknown as {
          keys(): AsyncIterable<string>;
        };
        const names: string[] = [];
        for await (const name of spare.keys()) names.push(name);
        return names;
      }
    });
    expect(left).toEqual({
      counts: {},
      caches: [],
      workers: 0,
      strings: 0,
      databases: ['hypocentre'],
      spare: [],
    });

    await begin(page, /^Open a backup/);
    const fresh = await sumOf(page);
    await open(page, 'mine.zip', file);
    await page.getByText('Which they are, by name').click();
    await page.getByText('discipline added: Anatomy', { exact: true }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Replace with it' }).click();
    await page.getByText('The backup is in.').waitFor();
    expect(await sumOf(page)).toBe(before);
    // Whoever begins anew can go on without a network too.
    await expect.poll(keptFiles, { timeout: 20_000 }).toBeGreaterThan(20);

    await page.getByRole('button', { name: /^Take back what was brought in/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click();
    await page.getByText('Everything is as it was before').waitFor();
    expect(await sumOf(page)).toBe(fresh);
  });

  it('shows both versions of what two devices changed at once, and keeps the chosen one', async () => {
    const write = async (page: Page, text: string) => {
      const field = page.getByLabel('Where from', { exact: true });
      await field.fill(text);
      await field.locator('xpath=..').getByText('saved', { exact: true }).waitFor();
    };
    const quay = await openApp();
    await begin(quay.page, /^Begin with an empty map/);
    await goTo(quay.page, '#/log');
    await quay.page.getByRole('button', { name: 'New block' }).click();
    await write(quay.page, 'as it was');
    const place = new URL(quay.page.url()).hash;

    const cabin = await openApp({ viewport: PHONE, colorScheme: 'dark' });
    await begin(cabin.page, /^Begin with an empty map/);
    await goTo(cabin.page, '#/log');
    await cabin.page.getByRole('button', { name: 'New block' }).click();
    await write(cabin.page, 'below deck');
    await open(cabin.page, 'quay.zip', await backUp(quay.page));
    await cabin.page.getByText('on another device').waitFor();
    await cabin.page.getByRole('button', { name: 'Merge it' }).click();
    await cabin.page.getByText('The backup is in.').waitFor();
    await goTo(cabin.page, '#/log');
    await cabin.page.getByRole('heading', { level: 1, name: 'Log' }).waitFor();
    const sources = await cabin.page.locator('.source').allInnerTexts();
    expect(sources.sort()).toEqual(['as it was', 'below deck']);
    await goTo(cabin.page, place);
    await write(cabin.page, 'from the cabin');
    await goTo(quay.page, place);
    await write(quay.page, 'from the quay');

    await open(cabin.page, 'quay again.zip', await backUp(quay.page));
    await cabin.page.getByRole('button', { name: 'Merge it' }).click();
    await cabin.page.getByText('The backup is in.').waitFor();
    await cabin.page.getByText('from the cabin').waitFor();
    expect(await axeViolations(cabin.page)).toEqual([]);
    const other = cabin.page.locator('div', { hasText: 'The other one' }).last();
    await other.getByRole('button', { name: 'Keep this one' }).click();
    await cabin.page.getByRole('heading', { name: 'Two versions' }).waitFor({ state: 'detached' });
    await goTo(cabin.page, place);
    expect(await cabin.page.getByLabel('Where from', { exact: true }).inputValue()).toBe(
      'from the cabin',
    );
  });
});
