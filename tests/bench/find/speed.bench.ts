/** Find beside minisearch in a real browser: keystrokes, edits, the first result after opening, memory. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { chromium, type Page } from 'playwright-core';
import { build } from 'vite';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { requireBrowser } from '../../browser/harness/chromium';
import type { Bench } from '../bench';

/** The page's own functions, as `page/main.ts` puts them on the window. */
interface PageBench {
  prepare(seed: number, count: number): Promise<{ build: number; peerBuild: number }>;
  firstResult(
    seed: number,
    count: number,
    order: 'ours first' | 'peer first',
  ): Promise<{ ours: number; peer: number; load: number; upToDate: number }>;
  keystrokes(
    seed: number,
    count: number,
    questionCount: number,
  ): Promise<Record<string, { ours: number[]; peer: number[] }>>;
  edits(
    count: number,
    editCount: number,
  ): Promise<{ ours: number[]; afterSaving: number[]; peer: number[] }>;
  memory(seed: number, count: number): { ours: number; peer: number; exact: boolean };
}

/** Calls a function of the page's. */
async function ask<K extends keyof PageBench>(
  page: Page,
  name: K,
  ...input: Parameters<PageBench[K]>
): Promise<Awaited<ReturnType<PageBench[K]>>> {
  const output: unknown = await page.evaluate(
    ([wanted, given]) => {
      const { bench } = window as unknown as {
        bench: Record<string, (...input: unknown[]) => unknown>;
      };
      return bench[wanted]!(...given);
    },
    [name as string, input as unknown[]] as const,
  );
  return output as Awaited<ReturnType<PageBench[K]>>;
}

/** The smallest value that at least this share of the values do not exceed. */
function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

const row = (label: string, cells: readonly (number | string)[]) =>
  console.log(
    `  ${label.padEnd(34)}${cells
      .map((cell) =>
        (typeof cell === 'number' ? cell.toFixed(cell < 100 ? 2 : 0) : cell).padStart(13),
      )
      .join('')}`,
  );

async function measure(page: Page, seed: number, count: number, questions: number): Promise<void> {
  const built = await ask(page, 'prepare', seed, count);
  row('ms', ['Find', 'minisearch', 'ratio']);
  row('index built anew', [built.build, built.peerBuild, built.peerBuild / built.build]);
  const firsts: { ours: number; peer: number }[] = [];
  for (const order of ['ours first', 'peer first', 'ours first', 'peer first'] as const) {
    await page.reload();
    const first = await ask(page, 'firstResult', seed, count, order);
    firsts.push(first);
    row(`first result, ${order}`, [first.ours, first.peer, first.peer / first.ours]);
    row('  (log read; index checked after)', [first.load, first.upToDate]);
  }
  const [ours, peer] = (['ours', 'peer'] as const).map((whose) =>
    quantile(
      firsts.map((first) => first[whose]),
      0.5,
    ),
  );
  row('first result, median', [ours!, peer!, peer! / ours!]);
  for (const [sort, ms] of Object.entries(await ask(page, 'keystrokes', seed, count, questions))) {
    for (const share of [0.5, 0.99]) {
      const [ours, peer] = [quantile(ms.ours, share), quantile(ms.peer, share)];
      row(`${sort}, p${share * 100}`, [ours, peer, peer / ours]);
    }
  }
  const edits = await ask(page, 'edits', count, 40);
  for (const share of [0.5, 0.99]) {
    row(`edit to findable, p${share * 100}`, [
      quantile(edits.ours, share),
      quantile(edits.peer, share),
      '',
    ]);
    row('  of that after the saving', [quantile(edits.afterSaving, share)]);
  }
  await page.reload();
  const memory = await ask(page, 'memory', seed, count);
  row(`MB on the heap${memory.exact ? '' : ' (not exact)'}`, [
    memory.ours,
    memory.peer,
    memory.peer / memory.ours,
  ]);
}

function speedBench(count: number, questions: number): Bench {
  return {
    name: `find-speed: ${count.toLocaleString('en')} documents in a real browser`,
    repeats: 1,
    warmups: 0,
    async prepare(seed) {
      const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-find-'));
      await build({
        configFile: false,
        root: path.join(import.meta.dirname, 'page'),
        logLevel: 'warn',
        plugins: [svelte({ configFile: false })],
        worker: { format: 'es' },
        build: { outDir: path.join(folder, 'dist'), emptyOutDir: true },
      });
      const server = await serveFolder(path.join(folder, 'dist'));
      const { env, ...choice } = await requireBrowser(PROJECT_ROOT);
      const context = await chromium.launchPersistentContext(path.join(folder, 'profile'), {
        ...choice,
        args: [
          '--no-sandbox',
          '--disable-gpu',
          '--enable-precise-memory-info',
          '--js-flags=--expose-gc',
        ],
        env: { ...process.env, ...env },
        locale: 'en-GB',
      });
      const page = context.pages()[0] ?? (await context.newPage());
      await page.goto(server.url);
      await page.waitForFunction(() => 'bench' in window);
      return {
        data: `${count} notes of 40 to 120 words, Zipf vocabulary of 12,000; ${questions} questions of each sort`,
        ours: { label: 'everything below', run: () => measure(page, seed, count, questions) },
        tidyUp: async () => {
          await context.close();
          await server.close();
          await rm(folder, { recursive: true, force: true, maxRetries: 5 });
        },
      };
    },
  };
}

export const benches: readonly Bench[] = [speedBench(5_000, 300), speedBench(20_000, 120)];
