/** A foreign vocabulary of 12,000 concepts brought in and looked at, in a real browser: how long the page stands still. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { ensureBuilt } from '../../../src/serve/ensure-built.mjs';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { requireBrowser } from '../../browser/harness/chromium';
import type { Bench } from '../bench';

const count = 12_000;

/** Concepts under one another to the base of nine, in two languages, each with other names. */
function foreignTurtle(): string {
  const lines = [
    '@prefix skos: <http://www.w3.org/2004/02/skos/core#> .',
    '<http://example.org/s> a skos:ConceptScheme ; skos:prefLabel "Foreign words"@en .',
  ];
  for (let i = 0; i < count; i++) {
    const broader =
      i === 0 ? '' : ` ; skos:broader <http://example.org/c/${Math.floor((i - 1) / 9)}>`;
    lines.push(
      `<http://example.org/c/${i}> a skos:Concept ; skos:inScheme <http://example.org/s> ; skos:prefLabel "Foreign concept ${i}"@en, "Fremder Begriff ${i}"@de ; skos:altLabel "word ${i} of another make"@en ; skos:definition "What concept ${i} is about, in a sentence."@en${broader} .`,
    );
  }
  return lines.join('\n');
}

interface Watched {
  gaps: number[];
}

/** From here on the times between frames are kept; gives those since the last call. */
function framesSince(page: Page): Promise<readonly number[]> {
  return page.evaluate(() => {
    const holder = window as unknown as { watched?: Watched };
    const before = holder.watched;
    if (!before) {
      const watched: Watched = { gaps: [] };
      holder.watched = watched;
      let last = performance.now();
      const next = () => {
        const now = performance.now();
        watched.gaps.push(now - last);
        last = now;
        requestAnimationFrame(next);
      };
      requestAnimationFrame(next);
      return [];
    }
    return before.gaps.splice(0);
  });
}

async function run(page: Page, url: string, file: string): Promise<void> {
  // What compiles this file names inner functions by a helper that the page does not have.
  await page.addInitScript({ content: 'globalThis.__name = (named) => named;' });
  await page.goto(url);
  await page.getByRole('button', { name: /^Begin with the starter map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
  await page.goto(`${url}#/map?view=files`);
  await page.getByLabel(/^A SKOS file/).waitFor();
  await framesSince(page);
  const say = async (what: string, started: number) => {
    const took = performance.now() - started;
    const gaps = await framesSince(page);
    console.log(
      `  ${what}: ${(took / 1000).toFixed(1)} s, longest standstill ${Math.max(0, ...gaps).toFixed(0)} ms`,
    );
  };

  let started = performance.now();
  // From the disk: a file handed over as bytes is decoded on the page's own thread.
  await page.getByLabel(/^A SKOS file/).setInputFiles(file);
  const bringIn = page.getByRole('button', { name: /^Bring in 12,?000 concepts/ });
  await bringIn.waitFor({ timeout: 60_000 });
  await say('read and previewed', started);

  started = performance.now();
  await bringIn.click();
  await bringIn.waitFor({ state: 'hidden', timeout: 120_000 });
  await say('brought in', started);

  started = performance.now();
  await page.getByRole('link', { name: 'Section' }).click();
  await page
    .getByRole('group', { name: 'Organ systems' })
    .getByRole('button')
    .first()
    .waitFor({ timeout: 120_000 });
  await say('section drawn', started);
}

export const benches: readonly Bench[] = [
  {
    name: 'map: a foreign file of 12,000 concepts in the browser',
    repeats: 1,
    warmups: 0,
    prepare: async () => {
      const built = await ensureBuilt(PROJECT_ROOT, () => undefined);
      if (built.kind === 'failed') throw new Error(built.message);
      const server = await serveFolder(path.join(PROJECT_ROOT, 'dist'));
      const { env, ...choice } = await requireBrowser(PROJECT_ROOT);
      const profile = await mkdtemp(path.join(tmpdir(), 'hypocentre-bench-'));
      const context = await chromium.launchPersistentContext(profile, {
        ...choice,
        args: ['--no-sandbox', '--disable-gpu'],
        env: { ...process.env, ...env },
        viewport: { width: 1280, height: 800 },
        locale: 'en-GB',
      });
      const page = context.pages()[0] ?? (await context.newPage());
      const turtle = foreignTurtle();
      const file = path.join(profile, 'foreign.ttl');
      await writeFile(file, turtle);
      return {
        data: `${(turtle.length / 1e6).toFixed(1)} MB of Turtle beside the starter map`,
        ours: { label: 'the whole journey', run: () => run(page, server.url, file) },
        tidyUp: async () => {
          await context.close();
          await server.close();
          await rm(profile, { recursive: true, force: true, maxRetries: 5 });
        },
      };
    },
  },
];
