/** Without a network, and with a new version: the build is served here, so that it can stop and change. */
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, inject, it, onTestFinished } from 'vitest';
import { serveFolder, type RunningServer } from '../../src/serve/static-server.mjs';
import { openApp } from './harness/open-app';

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
    const { page, context } = await openApp({ url: server.url, serviceWorkers: 'allow' });
    await begin(page);
    await kept(page);
    await server.close();

    await page.goto(`${server.url}#/screens`);
    await page.reload();
    const links = page.getByRole('main').getByRole('link');
    await links.first().waitFor();
    const places = await links.evaluateAll((all) => all.map((a) => a.getAttribute('href') ?? ''));
    expect(places.length).toBeGreaterThanOrEqual(3);
    for (const place of places) {
      await page.goto(server.url + place);
      await page.reload();
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

describe('a new version', () => {
  it('is announced, waits until it is taken, and then shows itself', async () => {
    const { folder, server } = await servedCopy();
    const { page } = await openApp({ url: server.url, serviceWorkers: 'allow' });
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

    await notice.getByRole('button', { name: 'Take it now' }).click();
    await edition.waitFor({ state: 'attached' });
    await page.getByRole('navigation', { name: 'Screens' }).waitFor();
  });
});
