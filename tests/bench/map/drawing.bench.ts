/** The section of a large map on the screen of a real browser, with bare cytoscape beside it. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { build } from 'vite';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { requireBrowser } from '../../browser/harness/chromium';
import type { Bench } from '../bench';
import type {} from './page/page';

const data = '14 systems, 2,000 concepts, 5,000 links, 1,280 x 700 px, headless without a GPU';

/** The page of the bench, built as the app is, in a browser of its own. */
async function openPage(seed: number): Promise<{ page: Page; tidyUp: () => Promise<void> }> {
  const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-bench-'));
  await build({
    configFile: false,
    logLevel: 'error',
    root: path.join(import.meta.dirname, 'page'),
    build: { outDir: folder, emptyOutDir: true, modulePreload: false },
  });
  const server = await serveFolder(folder);
  const { env, ...choice } = await requireBrowser(PROJECT_ROOT);
  const browser = await chromium.launch({
    ...choice,
    args: ['--no-sandbox', '--disable-gpu'],
    env: { ...process.env, ...env },
  });
  const page = await browser.newPage({
    viewport: { width: 1280, height: 720 },
    locale: 'en-GB',
  });
  await page.goto(server.url);
  await page.waitForFunction(() => window.bench !== undefined);
  await page.evaluate((from) => {
    const made = window.bench!(from);
    window.bench = () => made;
  }, seed);
  return {
    page,
    tidyUp: async () => {
      await browser.close();
      await server.close();
      await rm(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/** Drags the picture to and fro; p50 and p95 of ms between frames. */
async function dragged(page: Page): Promise<string> {
  await page.mouse.move(640, 650);
  await page.mouse.down();
  await page.mouse.move(640, 640);
  await page.evaluate(() => {
    window.bench!(0).watchFrames();
  });
  for (let step = 0; step < 60; step++) {
    const turn = step < 30 ? step : 60 - step;
    await page.mouse.move(640 + (turn % 7), 640 - 8 * turn);
  }
  const frames = await page.evaluate(() => window.bench!(0).framesSeen());
  await page.mouse.up();
  const sorted = [...frames].sort((a, b) => a - b);
  const at = (share: number) =>
    (sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? NaN).toFixed(1);
  return `p50 ${at(0.5)} ms, p95 ${at(0.95)} ms of ${sorted.length} frames`;
}

export const benches: readonly Bench[] = [
  {
    name: 'map: first drawing of 2,000 concepts, bare cytoscape beside it',
    repeats: 5,
    warmups: 1,
    prepare: async (seed) => {
      const { page, tidyUp } = await openPage(seed);
      return {
        data: `${data}; goal: sooner than the same elements with default options`,
        ours: { label: 'the section', run: () => page.evaluate(() => window.bench!(0).ours()) },
        others: [
          {
            label: 'bare, concepts and links',
            run: () => page.evaluate(() => window.bench!(0).bare(true)),
          },
          {
            label: 'bare, concepts alone',
            run: () => page.evaluate(() => window.bench!(0).bare(false)),
          },
        ],
        requireAgreement: (counts) => {
          if (new Set(counts).size !== 1) throw new Error(`drew ${counts.join(' and ')} concepts`);
        },
        tidyUp,
      };
    },
  },
  {
    name: 'map: moving the picture of 2,000 concepts, bare cytoscape beside it',
    repeats: 1,
    warmups: 0,
    prepare: async (seed) => {
      const { page, tidyUp } = await openPage(seed);
      return {
        data: `${data}; dragged 60 steps; goal: one frame at p95`,
        ours: {
          label: 'the section',
          run: async () => {
            await page.evaluate(() => window.bench!(0).ours());
            await page.evaluate(() => {
              window.bench!(0).nearer();
            });
            await page.waitForTimeout(500);
            console.log(`  the section, between frames: ${await dragged(page)}`);
          },
        },
        others: [
          {
            label: 'bare, concepts and links',
            run: async () => {
              await page.evaluate(() => window.bench!(0).bare(true));
              await page.waitForTimeout(500);
              console.log(`  bare cytoscape, between frames: ${await dragged(page)}`);
            },
          },
        ],
        tidyUp,
      };
    },
  },
];
