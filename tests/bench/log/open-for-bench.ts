/** The built app in a browser of its own, for benchmarks that need the real thing. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { ensureBuilt } from '../../../src/serve/ensure-built.mjs';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { requireBrowser } from '../../browser/harness/chromium';

export interface OpenForBench {
  readonly page: Page;
  /** the app's address */
  readonly url: string;
  close(): Promise<void>;
}

export async function openForBench(): Promise<OpenForBench> {
  const built = await ensureBuilt(PROJECT_ROOT, () => undefined);
  if (built.kind === 'failed') throw new Error(built.message);
  const server = await serveFolder(path.join(PROJECT_ROOT, 'dist'));
  const { env, ...choice } = await requireBrowser(PROJECT_ROOT);
  const profile = await mkdtemp(path.join(tmpdir(), 'hypocentre-bench-'));
  const context = await chromium.launchPersistentContext(profile, {
    ...choice,
    args: ['--no-sandbox', '--disable-gpu'],
    env: { ...process.env, ...env },
    locale: 'en-GB',
  });
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(server.url);
  return {
    page,
    url: server.url,
    close: async () => {
      await context.close();
      await server.close();
      await rm(profile, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}
