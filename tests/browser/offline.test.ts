/** Without a network, and with a new version: the build is served here, so that it can stop and change. */
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, inject, it, onTestFinished } from 'vitest';
import { serveFolder, type RunningServer } from '../../src/serve/static-server.mjs';
import { makeProfile, openApp } from './harness/open-app';

/** A copy of the build on a server of its own. */
async function servedCopy(): Promise<{ folder: string; server: RunningServer }> {
  const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-offline-'));
  await cp(inject('distFolder'), folder, { recursive: true });
  const server = await serveFolder(folder);
  onTestFinished(async () => {
    await server.close();
    await rm(folder, { recursive: true, force: true });
  });
  return { folder, server };
}

/** Waits until every file of this version is kept and the page is under the worker's care. */
const kept = (page: Page) =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((go) => setTimeout(go, 50));
  });

async function begin(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Begin with an empty map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
}

describe('without a network', () => {
  it('every screen opens after the first visit, also in a new tab, and the log is written', async () => {
    const { server } = await servedCopy();
    const { page, context, faults } = await openApp({
      url: server.url,
      serviceWorkers: 'allow',
      // Private profiles cannot install anything.
      profileFolder: await makeProfile(),
    });
    await begin(page);
    await kept(page);
    const session = await context.newCDPSession(page);
    expect(await session.send('Page.getInstallabilityErrors')).toEqual({
      installabilityErrors: [],
    });
    const { errors, manifest } = await session.send('Page.getAppManifest');
    expect(errors).toEqual([]);
    expect(manifest.icons?.map(({ sizes }) => sizes)).toEqual([
      '0x0', // any: the drawing itself
      '192x192',
      '512x512',
      '512x512',
    ]);
    await server.close();

    // Not the policy of the server, which is gone, but that of the page itself and of what was kept.
    await page.goto(`${server.url}#/screens`);
    await page.reload();
    const ran = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'window.ran = true';
      document.body.append(script);
      return 'ran' in window;
    });
    expect(ran).toBe(false);
    (faults as string[]).splice(0); // the browser reports the script it did not run
    const links = page.getByRole('main').getByRole('link');
    await links.first().waitFor();
    const places = await links.evaluateAll((all) => all.map((a) => a.getAttribute('href') ?? ''));
    expect(places.length).toBeGreaterThanOrEqual(3);
    for (const place of places) {
      await page.goto(server.url + place);
      await page.locator('main h1').first().waitFor();
      expect(await page.getByText('could not be fetched').count(), place).toBe(0);
    }
    const fresh = await context.newPage();
    await fresh.goto(`${server.url}#/log`);
    await fresh.getByRole('button', { name: 'New block' }).click();
    await fresh.getByLabel('Where from', { exact: true }).fill('Below deck');
    await fresh.getByText('saved', { exact: true }).first().waitFor();
  });
});

/** Adds one more step to the list of migrations in a build, as the next version of the app might. */
async function withNextDatabase(folder: string): Promise<void> {
  const assets = path.join(folder, 'assets');
  for (const name of await readdir(assets)) {
    if (!name.endsWith('.js')) continue;
    const text = await readFile(path.join(assets, name), 'utf8');
    const step = /(\{version:3,summary:[`"'][^`"']*[`"'],migrate:\w+\})/;
    if (!step.test(text)) continue;
    await writeFile(
      path.join(assets, name),
      text.replace(step, '$1,{version:4,summary:"one more",migrate(){}}'),
    );
    return;
  }
  throw new Error('withNextDatabase: the list of migrations was not found in the build');
}

describe('a new version', () => {
  it('is announced, waits until it is taken, saves what is being typed, and leaves other tabs alone', async () => {
    const { folder, server } = await servedCopy();
    const app = await openApp({ url: server.url, serviceWorkers: 'allow' });
    const { page, context } = app;
    await begin(page);
    await kept(page);

    const put = async (name: string, change: (text: string) => string) => {
      const file = path.join(folder, name);
      await writeFile(file, change(await readFile(file, 'utf8')));
    };
    await put('index.html', (text) =>
      text.replace('<head>', '<head><meta name="edition" content="2" />'),
    );
    await put('sw.js', (text) => text.replace(/VERSION = "\w+"/, 'VERSION = "second"'));
    await page.evaluate(async () => {
      await (await navigator.serviceWorker.getRegistration())?.update();
    });
    const notice = page.getByRole('status').filter({ hasText: 'A new version' });
    await notice.waitFor();
    const edition = page.locator('meta[name="edition"]');
    await page.reload();
    await page.getByRole('navigation', { name: 'Screens' }).waitFor();
    expect(await edition.count()).toBe(0); // nobody has asked for it yet

    // The offer outlives its notice.
    await notice.waitFor();
    await notice.getByRole('button', { name: /^Close/ }).click();
    const other = await context.newPage();
    await other.goto(`${server.url}#/log`);
    await other.getByRole('button', { name: 'New block' }).click();
    const field = (of: Page) => of.getByLabel('Where from', { exact: true });
    await field(other).fill('Below deck');
    await other.getByText('saved', { exact: true }).first().waitFor();
    const place = new URL(other.url()).hash;
    await field(other).pressSequentially(', aft');

    await page.goto(`${server.url}#/safekeeping`);
    await page.getByRole('button', { name: 'Take it now' }).click();
    await edition.waitFor({ state: 'attached' });
    await page.getByRole('heading', { level: 1, name: 'Safekeeping' }).waitFor();
    // The other tab is the old version still, with what was typed, and the two share the log.
    expect(await other.locator('meta[name="edition"]').count()).toBe(0);
    expect(await field(other).inputValue()).toBe('Below deck, aft');
    await page.goto(server.url + place);
    await expect.poll(() => field(page).inputValue()).toBe('Below deck, aft');
    await field(page).fill('Below deck, fore');
    await expect.poll(() => field(other).inputValue()).toBe('Below deck, fore');

    // A third version brings a newer database: the old tab lets go of it, and says so.
    await put('index.html', (text) => text.replace('content="2"', 'content="3"'));
    await put('sw.js', (text) => text.replace('VERSION = "second"', 'VERSION = "third"'));
    await withNextDatabase(folder);
    await page.evaluate(async () => {
      await (await navigator.serviceWorker.getRegistration())?.update();
    });
    await notice.waitFor();
    await field(page).pressSequentially(' and aft');
    await notice.getByRole('button', { name: 'Take it now' }).click();
    await expect.poll(() => edition.getAttribute('content')).toBe('3');
    await expect.poll(() => field(page).inputValue()).toBe('Below deck, fore and aft');
    await other
      .getByRole('alert')
      .filter({ hasText: 'A newer version of Hypocentre was opened in another tab' })
      .waitFor();
    (app.faults as string[]).splice(0);
  });
});
