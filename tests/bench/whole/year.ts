/** A browser with a year's log in it, for benchmarks of the whole app. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { ensureBuilt } from '../../../src/serve/ensure-built.mjs';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { requireBrowser } from '../../browser/harness/chromium';
import { launch } from '../../browser/harness/launch';
import { resultsCsv } from '../../browser/results-file';

export interface ServedApp {
  /** of the built app, ending in a slash */
  readonly url: string;
  /** a fresh profile, opened */
  open(): Promise<BrowserContext>;
  /** the app's page in a fresh profile */
  openPage(): Promise<Page>;
  /** closes what is open and removes the profiles */
  tidyUp(): Promise<void>;
}

export async function serveApp(): Promise<ServedApp> {
  const built = await ensureBuilt(PROJECT_ROOT, () => undefined);
  if (built.kind === 'failed') throw new Error(built.message);
  const server = await serveFolder(path.join(PROJECT_ROOT, 'dist'));
  const choice = await requireBrowser(PROJECT_ROOT);
  const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-bench-'));
  const contexts: BrowserContext[] = [];
  const open = async () => {
    const context = await launch(choice, await mkdtemp(path.join(folder, 'profile-')));
    contexts.push(context);
    return context;
  };
  return {
    url: server.url,
    open,
    openPage: async () => {
      const context = await open();
      const page = context.pages()[0] ?? (await context.newPage());
      await page.goto(server.url);
      return page;
    },
    tidyUp: async () => {
      for (const context of contexts) await context.close();
      await server.close();
      await rm(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/** Begins with the starter map and brings in blocks of forty; returns what came in, in the screen's words. */
export async function loadYear(page: Page, blocks: number, seed: number): Promise<string> {
  await page.getByRole('button', { name: /^Begin with the starter map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
  await page.goto(page.url().replace(/#.*$/, '') + '#/log/bring-in');
  await page.getByLabel('Choose a file of results').setInputFiles({
    name: 'year.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(resultsCsv(blocks, seed)),
  });
  await page.getByRole('button', { name: /^Bring in [\d,]+ items/ }).click({ timeout: 120_000 });
  const notice = page.getByText(/^[\d,]+ items came in/);
  await notice.waitFor({ timeout: 240_000 });
  return (await notice.textContent()) ?? '';
}
