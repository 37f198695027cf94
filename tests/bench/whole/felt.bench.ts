/**
 * What a person feels of the whole app with a year's log: opening it, the tasks that hold the page
 * up while it is used, and whether memory grows over an hour's use.
 */
import type { Page } from 'playwright-core';
import type { Bench } from '../bench';
import { loadYear, serveApp } from './year';

/** A block on most days of a year. */
const blocks = 300;
/** A change of screen every ten seconds for an hour. */
const changesInAnHour = Number(process.env['CHANGES'] ?? 360);
const longTaskGoalMs = 100;

interface LongTask {
  readonly doing: string;
  readonly ms: number;
}

interface Step {
  readonly doing: string;
  readonly run: (page: Page) => Promise<unknown>;
}

const title = (page: Page, name: string) =>
  page.getByRole('heading', { level: 1, name, exact: true }).waitFor();

const goTo =
  (place: string, name: string): Step['run'] =>
  async (page) => {
    await page.evaluate((hash) => (location.hash = hash), place);
    await title(page, name);
  };

/** A walk through every main screen, with one thing done on it. */
const journey: readonly Step[] = [
  { doing: 'opening Today', run: goTo('/today', 'Today') },
  { doing: 'opening Log', run: goTo('/log', 'Log') },
  {
    doing: 'finding blocks in Log',
    run: (page) => page.getByLabel('Find blocks').pressSequentially('renal', { delay: 60 }),
  },
  {
    doing: 'opening a block',
    run: async (page) => {
      await page.locator('main a[href^="#/log/block/"]').first().click();
      await page.getByRole('button', { name: /^Item 1, / }).waitFor();
    },
  },
  { doing: 'opening Roots', run: goTo('/roots', 'Roots') },
  {
    doing: 'opening a root',
    run: async (page) => {
      await page
        .getByRole('list', { name: /^Roots/ })
        .getByRole('link')
        .first()
        .click();
      await page.getByRole('heading', { name: 'Why is this here?' }).waitFor();
    },
  },
  {
    doing: 'opening Map',
    run: async (page) => {
      await goTo('/map', 'Map')(page);
      await page.getByRole('group', { name: 'Organ systems' }).waitFor();
    },
  },
  { doing: 'opening Read next', run: goTo('/reading', 'Read next') },
  { doing: 'opening Second look', run: goTo('/looks', 'Second look') },
  { doing: 'opening Notes', run: goTo('/notes', 'Notes') },
  { doing: 'opening Find', run: goTo('/find', 'Find') },
  {
    doing: 'finding as typed',
    run: async (page) => {
      const box = page.getByRole('searchbox').first();
      await box.fill('');
      await box.pressSequentially('diuretic', { delay: 60 });
      await page.getByText(/^\d+ results? among/).waitFor();
    },
  },
  { doing: 'opening Recall sheet', run: goTo('/sheet', 'Recall sheet') },
  { doing: 'opening Trends', run: goTo('/trends', 'Trends') },
  { doing: 'opening Safekeeping', run: goTo('/safekeeping', 'Safekeeping') },
];

/**
 * Runs in the page before its own scripts. As text, because what compiles this file names inner
 * functions by a helper that the page does not have.
 */
const watch = `
  window.felt = { doing: 'opening the app', tasks: [], shownMs: undefined };
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries())
      felt.tasks.push({ doing: felt.doing, ms: duration });
  }).observe({ type: 'longtask', buffered: true });
  (function look() {
    const text = document.querySelector('#screen-title')?.closest('main')?.textContent ?? '';
    // Title, lead and content: a title alone is not yet of use. Two frames later it is painted.
    if (text.length > 300)
      requestAnimationFrame(() => requestAnimationFrame(() => (felt.shownMs = performance.now())));
    else requestAnimationFrame(look);
  })();
`;

type Watched = Window & { felt: { doing: string; tasks: LongTask[]; shownMs?: number } };

/** ms from asking for the address to the first screen painted with its content. */
async function open(page: Page, url: string): Promise<number> {
  await page.goto('about:blank');
  await page.goto(`${url}#/today`);
  for (let asked = 0; asked < 400; asked++) {
    // Asked from outside: the page's own policy forbids what `waitForFunction` does.
    const shownMs = await page.evaluate(() => (window as unknown as Watched).felt.shownMs);
    if (shownMs !== undefined) return shownMs;
    await page.waitForTimeout(50);
  }
  throw new Error('opening: no content within 20 s');
}

async function walk(page: Page): Promise<void> {
  for (const { doing, run } of journey) {
    await page.evaluate((now) => ((window as unknown as Watched).felt.doing = now), doing);
    await run(page);
  }
}

/** Bytes in use after everything that can go has gone. */
async function heapBytes(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.enable');
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  await session.detach();
  return usedSize;
}

const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;

function worstLines(tasks: readonly LongTask[]): string[] {
  const worst = new Map<string, { ms: number; count: number }>();
  for (const { doing, ms } of tasks.filter((task) => task.ms > longTaskGoalMs)) {
    const now = worst.get(doing) ?? { ms: 0, count: 0 };
    worst.set(doing, { ms: Math.max(now.ms, ms), count: now.count + 1 });
  }
  const lines = [...worst]
    .sort(([, a], [, b]) => b.ms - a.ms)
    .map(([doing, { ms, count }]) => `    ${doing}: ${count}, the longest ${ms.toFixed(0)} ms`);
  return lines.length > 0 ? lines : ['    none'];
}

async function prepare(seed: number) {
  const app = await serveApp();
  const yearContext = await app.open();
  const emptyContext = await app.open();
  for (const context of [yearContext, emptyContext])
    await context.addInitScript({ content: watch });
  const year = yearContext.pages()[0] ?? (await yearContext.newPage());
  const empty = emptyContext.pages()[0] ?? (await emptyContext.newPage());
  await year.goto(app.url);
  const loaded = await loadYear(year, blocks, seed);
  await empty.goto(app.url);
  await empty.getByRole('button', { name: /^Begin with the starter map/ }).click();
  await empty.getByRole('navigation', { name: 'Screens' }).waitFor();
  return { app, year, empty, loaded };
}

const opening: Bench = {
  name: 'whole: opening the app with a year loaded',
  repeats: 9,
  warmups: 2,
  prepare: async (seed) => {
    const { app, year, empty, loaded } = await prepare(seed);
    const shown: number[] = [];
    return {
      data: `${loaded} goal: under 1,000 ms to the first screen with its content`,
      ours: {
        label: 'a year',
        run: async () => {
          shown.push(await open(year, app.url));
        },
      },
      others: [{ label: 'the starter map and no log', run: () => open(empty, app.url) }],
      tidyUp: async () => {
        const sorted = shown.sort((a, b) => a - b);
        console.log(
          `  painted after: median ${sorted[Math.floor(sorted.length / 2)]?.toFixed(0)} ms, worst ${sorted.at(-1)?.toFixed(0)} ms`,
        );
        await app.tidyUp();
      },
    };
  },
};

const hour: Bench = {
  name: 'whole: long tasks and memory over an hour of use with a year loaded',
  repeats: 1,
  warmups: 0,
  prepare: async (seed) => {
    const { app, year, loaded } = await prepare(seed);
    const rounds = Math.ceil(changesInAnHour / journey.length);
    return {
      data: `${loaded} ${rounds} walks of ${journey.length} steps, as many as an hour has at one in ten seconds`,
      ours: {
        label: 'all of it, without the pauses',
        run: async () => {
          await open(year, app.url);
          const heap: number[] = [];
          for (let round = 0; round < rounds; round++) {
            await walk(year);
            await goTo('/about', 'About')(year);
            heap.push(await heapBytes(year));
          }
          const tasks = await year.evaluate(() => (window as unknown as Watched).felt.tasks);
          console.log(`  tasks of more than ${longTaskGoalMs} ms (goal: none), the worst first:`);
          for (const line of worstLines(tasks)) console.log(line);
          const at = (share: number) => heap[Math.round(share * (heap.length - 1))] ?? NaN;
          console.log(
            `  heap of the page after the first walk ${megabytes(at(0))}, ` +
              `a third ${megabytes(at(1 / 3))}, two thirds ${megabytes(at(2 / 3))}, the last ${megabytes(at(1))}`,
          );
        },
      },
      tidyUp: app.tidyUp,
    };
  },
};

export const benches: readonly Bench[] = [opening, hour];
