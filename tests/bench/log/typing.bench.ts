/** Typing into a miss under review with a year's log loaded: from the keystroke to the next paint, in a real browser. */
import type { CDPSession, Page } from 'playwright-core';
import type { Bench } from '../bench';
import { loadYear, serveApp } from '../whole/year';

/** A year: 15,000 items, by the demo's scenario under the bench's seed. */
const blocks = 375;
/** Keys typed, and the pause between them: a fast typist. */
const keys = 300;
const pauseMs = 60;

/** A fresh block with three misses, its first form open. */
async function openMiss(page: Page): Promise<void> {
  await page.goto(page.url().replace(/#.*$/, '') + '#/log');
  await page.getByRole('button', { name: 'New block' }).click();
  await page.getByLabel('Or type the numbers').fill('3, 7, 9');
  await page.getByRole('button', { name: 'Mark as missed' }).click();
}

interface Watched {
  /** ms from each keystroke to the first task after the frame that shows it */
  readonly seen: readonly number[];
  /** ms of the processor that the page's main thread took, a key: the same on a busy machine */
  readonly cpuMsAKey: number;
}

async function typeAndWatch(page: Page): Promise<Watched> {
  await page.bringToFront();
  const piece = page.getByLabel('Missing piece', { exact: true });
  await piece.focus();
  await page.evaluate(() => {
    const seen: number[] = [];
    (window as unknown as { seen: number[] }).seen = seen;
    addEventListener(
      'keydown',
      ({ timeStamp }) =>
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => void seen.push(performance.now() - timeStamp);
          port2.postMessage(0);
        }),
      true,
    );
  });
  const text = 'The anion gap counts what nobody measured in the blood; diuretics waste it. ';
  const typed = text.repeat(Math.ceil(keys / text.length)).slice(0, keys);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const before = await taskMs(session);
  await page.keyboard.type(typed, { delay: pauseMs });
  await page.waitForTimeout(500);
  const cpuMsAKey = ((await taskMs(session)) - before) / typed.length;
  await session.detach();
  if ((await piece.inputValue()) !== typed) throw new Error('typing: not all keys arrived');
  const seen = await page.evaluate(() => (window as unknown as { seen: number[] }).seen);
  return { seen, cpuMsAKey };
}

/** ms of the processor that the main thread has spent in tasks so far. */
async function taskMs(session: CDPSession): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics');
  const duration = metrics.find(({ name }) => name === 'TaskDuration');
  if (!duration) throw new Error('typing: the browser gives no TaskDuration');
  return duration.value * 1_000;
}

function say(what: string, { seen, cpuMsAKey }: Watched): void {
  const at = (share: number) => quantile(seen, share).toFixed(1);
  console.log(
    `  ${what}: keystroke to paint p50 ${at(0.5)} ms, p95 ${at(0.95)} ms, p99 ${at(0.99)} ms, worst ${at(1)} ms; ` +
      `${cpuMsAKey.toFixed(1)} ms of the main thread's processor a key`,
  );
}

/** The smallest value that at least this share of the values do not exceed. */
function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

async function prepare(seed: number) {
  const app = await serveApp();
  const page = await app.openPage();
  const loaded = await loadYear(page, blocks, seed);
  // What this browser on this machine takes for a key without any app: the rest is ours.
  const bare = await page.context().newPage();
  return {
    data: `${loaded} ${keys} keys, one every ${pauseMs} ms; goal: p99 under 50 ms`,
    ours: {
      label: 'a missing piece, a year loaded',
      run: async () => {
        await page.bringToFront();
        await openMiss(page);
        say('a missing piece', await typeAndWatch(page));
      },
    },
    others: [
      {
        label: 'a text box on an empty page',
        run: async () => {
          await bare.setContent('<textarea aria-label="Missing piece" rows="2"></textarea>');
          say('an empty page', await typeAndWatch(bare));
        },
      },
    ],
    tidyUp: app.tidyUp,
  };
}

export const benches: readonly Bench[] = [
  { name: 'log: keystroke to paint with a year loaded', prepare, repeats: 2, warmups: 0 },
];
