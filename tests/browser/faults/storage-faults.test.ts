/** What goes wrong round the app: each fault has its message, a way on, and loses nothing. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, inject, it } from 'vitest';
import type { SavedDatabase } from '../../fixtures/database/saved-database';
import { openApp, type OpenedApp } from '../harness/open-app';
import { putDatabase, stored } from './stored';

const outside = 'icon.svg'; // the app's address, without the app

async function begin(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Begin with an empty map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
}

async function newBlock(page: Page): Promise<void> {
  await page.goto(page.url().replace(/#.*$/, '') + '#/log');
  await page.getByRole('button', { name: 'New block' }).click();
  await page.getByLabel('Where from', { exact: true }).waitFor();
}

async function writeSaved(page: Page, text: string): Promise<void> {
  const field = page.getByLabel('Where from', { exact: true });
  await field.fill(text);
  await field.locator('xpath=..').getByText('saved', { exact: true }).waitFor();
}

const takeFaults = (app: OpenedApp) => (app.faults as string[]).splice(0);

describe('the storage of the browser', () => {
  it('that is refused, as in a private window, is said in place of the app, with the way on', async () => {
    const { page } = await openApp({ place: outside });
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('refused', 'SecurityError');
      };
    });
    await page.goto(inject('appUrl'));
    await page.getByRole('heading', { name: 'The log cannot be opened' }).waitFor();
    await page.getByText(/^Leave the private window, or allow site data/).waitFor();
    await page.getByRole('button', { name: 'Reload' }).waitFor();
  });

  it('held open by an old tab makes the new one say what it waits for, and go on by itself', async () => {
    const { page, context } = await openApp({ place: outside });
    const file = new URL('../../fixtures/database/v1.json', import.meta.url);
    await putDatabase(page, JSON.parse(await readFile(file, 'utf8')) as SavedDatabase);
    await page.evaluate(async () => {
      const opening = indexedDB.open('hypocentre');
      await new Promise((resolve) => (opening.onsuccess = resolve));
      (window as unknown as { held: IDBDatabase }).held = opening.result;
    });
    const fresh = await context.newPage();
    await fresh.goto(inject('appUrl'));
    await fresh.getByRole('heading', { name: 'Waiting for another tab' }).waitFor();
    await page.evaluate(() => (window as unknown as { held: IDBDatabase }).held.close());
    await fresh.getByText('Waiting for another tab').waitFor({ state: 'detached' });
    expect((await stored(fresh, ['blocks'])).records['blocks']).toHaveLength(1);
  });

  it('written by a newer version is left alone, and that is said', async () => {
    const { page } = await openApp({ place: outside });
    await putDatabase(page, { format: 'hypocentre-database', version: 99, stores: [] });
    await page.goto(inject('appUrl'));
    await page.getByRole('heading', { name: 'A newer version has been here' }).waitFor();
    expect((await stored(page, [])).version).toBe(99);
  });

  it('that the browser clears under an open tab is said at once, and a reload begins anew', async () => {
    const app = await openApp();
    await begin(app.page);
    await newBlock(app.page);
    await writeSaved(app.page, 'Pilot boat notes');
    const session = await app.context.newCDPSession(app.page);
    const origin = new URL(app.page.url()).origin;
    await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
    const alert = app.page
      .getByRole('alert')
      .filter({ hasText: /closed the stored data|this tab has stopped/ });
    await alert.getByRole('button', { name: 'Reload' }).first().click();
    await app.page.getByRole('button', { name: /^Begin with an empty map/ }).waitFor();
    takeFaults(app);
  });

  it('saves on with a clock set back, and dates the later change later', async () => {
    const { page } = await openApp();
    await begin(page);
    await newBlock(page);
    await writeSaved(page, 'before');
    const changedAt = async () => {
      const [block] = (await stored(page, ['blocks'])).records['blocks'] ?? [];
      return (block as unknown as { stamp: { changedAt: number } }).stamp.changedAt;
    };
    const first = await changedAt();
    await page.clock.install({ time: first - 400 * 86_400_000 });
    await page.reload();
    await writeSaved(page, 'after');
    expect(await changedAt()).toBeGreaterThan(first);
  });
});
