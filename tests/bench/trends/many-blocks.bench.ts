/**
 * Trends with 1,000 blocks and with 60, in a real browser: from the address to the last figure that
 * the page counts by itself, and the longest time in which it could not have answered a key. What the
 * worker foretells and follows back comes later, and is not waited for.
 */
import type { Page } from 'playwright-core';
import { conceptsOf, readMapParts, type SeedConcept } from '../../../seed-data/demo/read-seed';
import { randomFrom } from '../../../src/engine/numeric/random';
import type { Bench } from '../bench';
import { serveApp, type ServedApp } from '../whole/year';

const itemsInBlock = 40;
const msPerDay = 86_400_000;

/** Records of a log with every fact the comparisons ask for; one block a day up to yesterday. */
function logOf(blockCount: number, today: number, concepts: readonly SeedConcept[], seed: number) {
  const random = randomFrom(seed);
  const below = (bound: number) => Math.floor(random.uniform() * bound);
  const stamp = { origin: 'bench', revision: { bench: 1 }, changedAt: 1, deleted: false };
  const gaps = new Set(concepts.filter((_, i) => i % 20 === 7).map(({ id }) => id));
  const blocks = Array.from({ length: blockCount }, (_, i) => {
    const day = today - blockCount + i;
    return {
      id: `block-${i}`,
      day,
      startedAt: day * msPerDay + (7 + below(14)) * 3_600_000,
      itemCount: itemsInBlock,
      minutesGiven: below(2) === 0 ? 60 : 75,
      minutesUsed: 50 + below(15),
      reviewMinutes: 60 + below(180),
      timed: below(3) > 0,
      mixed: below(3) > 0,
      changedToRight: below(3),
      source: '',
      stamp,
    };
  });
  const items = blocks.flatMap((block) =>
    Array.from({ length: itemsInBlock }, (_, position) => {
      const topic = concepts[below(concepts.length)]!;
      // One topic in twenty is a gap, so that there are roots to follow.
      const missed = random.uniform() < (gaps.has(topic.id) ? 0.9 : 0.25);
      return {
        id: `${block.id}-${position}`,
        block: block.id,
        position: position + 1,
        outcome: missed ? 'missed' : 'right',
        topics: [topic.id],
        causes: [],
        system: topic.systems[0],
        ...(missed && below(8) === 0 && { reason: 'changed-from-right' }),
        missingPiece: '',
        optionTurns: [],
        reference: '',
        stamp,
      };
    }),
  );
  const days = blocks.map(({ day }) => ({
    id: `day-${day}`,
    day,
    sleepHours: 6 + below(6) / 2,
    rest: false,
    stamp,
  }));
  return { blocks, items, days };
}

/** Writes records beside the app, which is not looking: it reads them when it is loaded again. */
async function put(page: Page, records: Record<string, readonly object[]>): Promise<void> {
  await page.evaluate(async (given) => {
    const opening = indexedDB.open('hypocentre');
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(new Error('the database cannot be opened'));
    });
    const tx = db.transaction(Object.keys(given), 'readwrite');
    for (const [name, list] of Object.entries(given))
      for (const record of list) tx.objectStore(name).put(record);
    await new Promise<void>((resolve, reject) => {
      tx.oncomplete = () => resolve();
      tx.onabort = () => reject(new Error('the records cannot be written'));
    });
    db.close();
  }, records);
}

interface Drawn {
  /** ms from the change of address to the last figure. */
  readonly untilLast: number;
  /** ms of the longest task of the page's thread in that time; 0: none over 50. */
  readonly longest: number;
  readonly longTasks: number;
}

/** Opens Trends from another screen, the log being traced, and watches the page's thread. */
async function draw(page: Page): Promise<Drawn> {
  const address = page.url().replace(/#.*$/, '');
  await page.goto(`${address}#/about`);
  await page.getByRole('heading', { level: 1, name: 'About' }).waitFor();
  await page.evaluate(() => {
    const seen: number[] = [];
    const watched = window as unknown as { seen: number[]; from: number };
    watched.seen = seen;
    const watcher = new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) seen.push(duration);
    });
    watcher.observe({ type: 'longtask' });
    watched.from = performance.now();
    location.hash = '#/trends';
  });
  await page.getByRole('figure', { name: 'Differences in points' }).waitFor({ timeout: 120_000 });
  return page.evaluate(() => {
    const { seen, from } = window as unknown as { seen: number[]; from: number };
    return {
      untilLast: performance.now() - from,
      longest: Math.max(0, ...seen),
      longTasks: seen.length,
    };
  });
}

async function openLog(app: ServedApp, seed: number, blockCount: number): Promise<Page> {
  const context = await app.open();
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(app.url);
  await page.getByRole('button', { name: /^Begin with the starter map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
  const today = await page.evaluate((ms) => Math.floor(Date.now() / ms), msPerDay);
  await put(page, logOf(blockCount, today, conceptsOf(readMapParts('human')), seed));
  await page.goto(`${app.url}#/roots`);
  await page.reload();
  await page
    .getByRole('list', { name: /^Roots/ })
    .getByRole('link')
    .first()
    .waitFor({ timeout: 120_000 });
  return page;
}

async function prepare(seed: number) {
  const app = await serveApp();
  const [many, few] = [await openLog(app, seed, 1_000), await openLog(app, seed, 60)];
  const subject = (label: string, page: Page) => ({
    label,
    run: async () => {
      const { untilLast, longest, longTasks } = await draw(page);
      console.log(
        `  ${label}: ${untilLast.toFixed(0)} ms to the last figure, ` +
          `longest task ${longest.toFixed(0)} ms, ${longTasks} over 50 ms`,
      );
    },
  });
  return {
    data: `${itemsInBlock} items a block, all itemised, one block a day`,
    ours: subject('60 blocks', few),
    others: [subject('1,000 blocks', many)],
    tidyUp: app.tidyUp,
  };
}

export const benches: readonly Bench[] = [
  { name: 'trends: 1,000 blocks and 60, to the last figure', prepare, repeats: 3, warmups: 1 },
];
