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
    // What is gone comes back from a backup: the first screen leads there.
    await app.page.getByRole('button', { name: 'Open a backup' }).click();
    await app.page.getByLabel('Open a backup…').waitFor();
    takeFaults(app);
  });

  it('that is full lets nothing pass for saved, and what was typed is saved once there is room', async () => {
    const app = await openApp();
    const { page } = app;
    await begin(page);
    await newBlock(page);
    await writeSaved(page, 'Pilot boat notes');
    const session = await app.context.newCDPSession(page);
    const { origin } = new URL(page.url());
    const quota = (bytes?: number) =>
      session.send('Storage.overrideQuotaForOrigin', {
        origin,
        ...(bytes !== undefined && { quotaSize: bytes }),
      });
    await quota(1);
    const field = page.getByLabel('Where from', { exact: true });
    await field.fill('Pilot boat notes, second set');
    await page.getByText(/^Not saved: The browser has no room left for this site/).waitFor();
    const source = async () =>
      (await stored(page, ['blocks'])).records['blocks']?.map(
        (block) => (block as unknown as { source: string }).source,
      );
    expect(await source()).toEqual(['Pilot boat notes']);
    await quota();
    await page.getByRole('button', { name: 'Try again' }).click();
    await field.locator('xpath=..').getByText('saved', { exact: true }).waitFor();
    expect(await source()).toEqual(['Pilot boat notes, second set']);
    takeFaults(app);
  });

  it('that does not answer is said after a while, and the app goes on by itself once it does', async () => {
    const { page, context } = await openApp({ place: outside });
    // Whoever is at work on the database keeps every other one waiting.
    await page.evaluate(() => {
      const opening = indexedDB.open('hypocentre', 1);
      opening.onerror = (event) => event.preventDefault();
      opening.onupgradeneeded = () => {
        const store = opening.result.createObjectStore('work');
        const workOn = () => {
          if ('released' in window) opening.transaction?.abort();
          else store.get(1).onsuccess = workOn;
        };
        workOn();
      };
    });
    const fresh = await context.newPage();
    await fresh.clock.install();
    await fresh.goto(inject('appUrl'));
    await fresh.clock.fastForward(10_000);
    await fresh.getByRole('heading', { name: 'Still waiting for the stored data' }).waitFor();
    await page.evaluate(() => Object.assign(window, { released: true }));
    await fresh.getByRole('button', { name: /^Begin with an empty map/ }).waitFor();
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

describe('a background worker that dies in mid-job', () => {
  it('is said by every screen that waited for it, and the next try works', async () => {
    const app = await openApp();
    const { page, context } = app;
    await begin(page);
    const address = page.url().replace(/#.*$/, '');
    /** The next worker of this name dies of its first job; the one after it is whole. */
    const breakNext = (name: string) =>
      context.route(
        new RegExp(`${name}\\.worker-[\\w-]+\\.js$`),
        async (route) => {
          const answer = await route.fetch();
          const dying = `self.addEventListener('message', () => { throw new Error('lost at sea'); });`;
          await route.fulfill({ response: answer, body: `${dying}\n${await answer.text()}` });
        },
        { times: 1 },
      );

    await breakNext('trace');
    await page.reload();
    await page.goto(`${address}#/roots`);
    await page.getByRole('alert').filter({ hasText: 'could not be traced' }).waitFor();
    await page.getByRole('button', { name: 'Trace again' }).click();
    await page.getByText('No miss to trace yet').waitFor();

    await breakNext('import');
    await page.goto(`${address}#/log/bring-in`);
    const pasted = page.getByLabel('Or paste a table');
    const read = page.getByRole('button', { name: 'Read the pasted table' });
    await pasted.fill('Date,Item,Result\n2026-03-02,3,right\n2026-03-02,9,wrong');
    await read.click();
    await page
      .getByRole('alert')
      .filter({ hasText: /broke off/ })
      .waitFor();
    await pasted.fill('Date,Item,Result\n2026-03-02,3,right\n2026-03-02,9,wrong');
    await read.click();
    await page.getByRole('button', { name: 'Bring in 2 items' }).click();
    await page.getByText('2 items came in').waitFor();

    await breakNext('backup');
    await page.goto(`${address}#/safekeeping`);
    await page.getByRole('button', { name: 'Back up now' }).click();
    await page.getByRole('alert').filter({ hasText: 'No backup was made.' }).waitFor();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Back up now' }).click();
    await download;

    await breakNext('search');
    await page.goto(`${address}#/find?q=rope`);
    await page
      .getByText(/[Nn]othing/)
      .first()
      .waitFor();
    takeFaults(app); // the browser reports each of the four
  });

  it('at every start is not started for ever', async () => {
    const app = await openApp();
    let starts = 0;
    await app.context.route(/search\.worker-[\w-]+\.js$/, async (route) => {
      starts += 1;
      await route.abort();
    });
    await begin(app.page);
    await app.page.goto(`${app.page.url().replace(/#.*$/, '')}#/find?q=rope`);
    await app.page
      .getByRole('alert')
      .filter({ hasText: /broke off/ })
      .first()
      .waitFor();
    await app.page.waitForTimeout(500);
    expect(starts).toBeGreaterThanOrEqual(1);
    expect(starts).toBeLessThan(8);
    takeFaults(app);
  });
});
