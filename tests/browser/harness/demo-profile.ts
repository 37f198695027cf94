/** Makes, once for all journeys, a profile in which the demo is loaded. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BrowserChoice } from './chromium';
import { launch } from './launch';

export interface DemoProfile {
  readonly folder: string;
  remove(): Promise<void>;
}

/** Whoever copies the folder must open it on the same address: storage belongs to an origin. */
export async function makeDemoProfile(url: string, browser: BrowserChoice): Promise<DemoProfile> {
  const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-demo-'));
  const context = await launch(browser, folder);
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(url);
  await page.getByRole('button', { name: /Look at the demo/ }).click();
  const roots = page.getByRole('list', { name: /^Roots/ });
  await roots.getByRole('listitem').first().waitFor();
  await context.close();
  return { folder, remove: () => rm(folder, { recursive: true, force: true, maxRetries: 5 }) };
}
