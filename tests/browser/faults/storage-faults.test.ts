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

  it('that the browser clears under an open tab is said at once; a reload puts the log back where a spare copy is left', async () => {
    const app = await openApp();
    const { page } = app;
    await begin(page);
    await newBlock(page);
    await writeSaved(page, 'Pilot boat notes');
    const session = await app.context.newCDPSession(page);
    const { origin } = new URL(page.url());
    const clear = async (storageTypes: string) => {
      await session.send('Storage.clearDataForOrigin', { origin, storageTypes });
      const alert = page
        .getByRole('alert')
        .filter({ hasText: /closed the stored data|this tab has stopped/ });
      await alert.getByRole('button', { name: 'Reload' }).first().click();
    };
    await clear('indexeddb');
    await page.getByText(/The spare copy was there: all \d+ entries are back/).waitFor();
    expect(await page.getByLabel('Where from', { exact: true }).inputValue()).toBe(
      'Pilot boat notes',
    );
    await clear('all');
    // What is gone comes back from a backup: the first screen leads there.
    await page.getByRole('button', { name: 'Open a backup' }).click();
    await page.getByLabel('Open a backup…').waitFor();
    takeFaults(app);
  });

  it('that is full is said, keeps nothing by halves, and works on once there is room', async () => {
    const { page, context } = await openApp({ place: outside });
    const session = await context.newCDPSession(page);
    const { origin } = new URL(page.url());
    // The browser allots room in advance: so it is taken away before the app writes anything.
    await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
    await page.goto(inject('appUrl'));
    const trouble = page.getByText(
      /The browser has no room left for this site, so nothing was saved/,
    );
    const beginning = page.getByRole('button', { name: /^Begin with an empty map/ });
    await trouble.or(beginning).first().waitFor();
    if (await beginning.isVisible()) await beginning.click();
    await trouble.waitFor();
    await page.getByText(/Free some disk space/).waitFor();
    const { records } = await stored(page, ['settings', 'disciplines']);
    expect(records).toEqual({ settings: [], disciplines: [] });

    await session.send('Storage.overrideQuotaForOrigin', { origin });
    await page.goto(`${inject('appUrl')}${outside}`);
    await page.goto(inject('appUrl'));
    await begin(page);
    await newBlock(page);
    await writeSaved(page, 'Pilot boat notes');
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
    /** Workers of this name die of their first job, until what comes back is called. */
    const breakWorker = async (name: string) => {
      const file = new RegExp(`${name}\\.worker-[\\w-]+\\.js$`);
      let broken = true;
      await context.route(file, async (route) => {
        if (!broken) return route.fallback();
        const answer = await route.fetch();
        const dying = `self.addEventListener('message', () => { throw new Error('lost at sea'); });`;
        await route.fulfill({ response: answer, body: `${dying}\n${await answer.text()}` });
      });
      return () => void (broken = false);
    };

    let mend = await breakWorker('trace');
    await page.reload();
    await page.goto(`${address}#/roots`);
    await page.getByRole('alert').filter({ hasText: 'could not be traced' }).waitFor();
    mend();
    await page.getByRole('button', { name: 'Trace again' }).click();
    await page.getByText('No miss to trace yet').waitFor();

    mend = await breakWorker('import');
    await page.goto(`${address}#/log/bring-in`);
    const pasted = page.getByLabel('Or paste a table');
    const read = page.getByRole('button', { name: 'Read the pasted table' });
    await pasted.fill('Date,Item,Result\n2026-03-02,3,right\n2026-03-02,9,wrong');
    await read.click();
    await page
      .getByRole('alert')
      .filter({ hasText: /broke off/ })
      .waitFor();
    mend();
    await pasted.fill('Date,Item,Result\n2026-03-02,3,right\n2026-03-02,9,wrong');
    await read.click();
    await page.getByRole('button', { name: 'Bring in 2 items' }).click();
    await page.getByText('2 items came in').waitFor();

    mend = await breakWorker('backup');
    await page.reload();
    await page.goto(`${address}#/safekeeping`);
    const backUp = page.getByRole('button', { name: 'Back up now' });
    await backUp.click();
    await page.getByRole('alert').filter({ hasText: 'No backup was made.' }).waitFor();
    mend();
    const download = page.waitForEvent('download');
    await backUp.click();
    await download;

    mend = await breakWorker('search');
    await page.goto(`${address}#/find?q=rope`);
    await page
      .getByRole('alert')
      .filter({ hasText: /broke off/ })
      .first()
      .waitFor();
    mend();
    // Workers that were being started meanwhile may die yet.
    await expect
      .poll(
        async () => {
          const again = page.getByRole('button', { name: 'Look again' });
          if (await again.isVisible()) await again.click();
          return page.getByText(/[Nn]othing/).count();
        },
        { timeout: 30_000, interval: 500 },
      )
      .toBeGreaterThan(0);
    takeFaults(app); // the browser reports each of them
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
