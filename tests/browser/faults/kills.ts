/**
 * Kills the browser at random moments while the app works, opens it again on the same profile and
 * looks at what is there: every acknowledged save, and nothing half done. Needs no test runner.
 */
import { readFile } from 'node:fs/promises';
import type { BrowserContext, Page } from 'playwright-core';
import { writeBackup, type BackupContent } from '../../../src/formats/backup/write-backup';
import type { SavedDatabase } from '../../fixtures/database/saved-database';
import type { BrowserChoice } from '../harness/chromium';
import { killBrowser, launch } from '../harness/launch';
import { putDatabase, stored } from './stored';

export const activities = ['logging', 'importing', 'bringing a backup in', 'migrating'] as const;
export type Activity = (typeof activities)[number];

export interface KillOptions {
  readonly url: string;
  readonly choice: BrowserChoice;
  readonly activity: Activity;
  readonly kills: number;
  /** Uniform in [0, 1). */
  readonly random: () => number;
  /** A fresh, empty folder; with `migrating` one is asked for at each kill. */
  readonly makeProfile: () => Promise<string>;
  readonly say?: (line: string) => void;
}

export interface KillReport {
  readonly kills: number;
  /** Saves that the page had said were saved before a kill. */
  readonly acknowledged: number;
  /** Kills that hit work which had been begun and not yet acknowledged. */
  readonly midWork: number;
  /** What was wrong, in words; empty when all held. */
  readonly wrong: readonly string[];
}

/** Records brought in by one import or backup: enough that a kill can hit their transaction. */
const batch = 400;

export async function killWhile(options: KillOptions): Promise<KillReport> {
  if (options.activity === 'migrating') return killMigrating(options);
  const work = { logging, importing, 'bringing a backup in': bringingIn }[options.activity];
  const { url, choice, kills, random } = options;
  const profile = await options.makeProfile();
  const wrong: string[] = [];
  let [acknowledged, midWork] = [0, 0];
  let check: Check = () => Promise.resolve(undefined);

  for (let round = 0; round <= kills; round++) {
    const context = await launch(choice, profile);
    const page = await opened(context, url);
    const fault = await check(page);
    if (fault !== undefined) wrong.push(`${options.activity}, kill ${round}: ${fault}`);
    if (round === kills) {
      await context.close();
      break;
    }
    const begun = await work(page, url, round);
    await pause(random() * begun.withinMs);
    await killBrowser(context);
    acknowledged += begun.acknowledged();
    if (begun.underWay()) midWork += 1;
    check = begun.check;
    options.say?.(`${options.activity}: ${round + 1} of ${kills}`);
  }
  return { kills, acknowledged, midWork, wrong };
}

/** Undefined when all is as it must be. */
type Check = (page: Page) => Promise<string | undefined>;

interface Begun {
  /** A kill within this time, in ms, hits the work. */
  readonly withinMs: number;
  readonly acknowledged: () => number;
  readonly underWay: () => boolean;
  readonly check: Check;
}

/** Types numbers into a field, one after another, each as soon as the one before is called saved. */
async function logging(page: Page, url: string): Promise<Begun> {
  let last = -1;
  await page.exposeFunction('acknowledge', (value: number) => {
    last = value;
  });
  await page.goto(`${url}#/log`);
  const blocks = (await stored(page, ['blocks'])).records['blocks'] ?? [];
  const [block] = blocks;
  if (block) await page.goto(`${url}#/log/block/${block.id}`);
  else await page.getByRole('button', { name: 'New block' }).click();
  const field = page.getByLabel('Where from', { exact: true });
  await field.waitFor();
  const first = Number(await field.inputValue()) || 0;
  // The bench's compiler marks named functions with a helper that the page does not have.
  await page.evaluate('globalThis.__name = (made) => made');
  await field.evaluate((input: HTMLInputElement, start) => {
    const holder = input.parentElement;
    const acknowledge = (window as unknown as { acknowledge: (value: number) => void }).acknowledge;
    let value = start;
    const type = () => {
      value += 1;
      input.value = String(value);
      input.dispatchEvent(new Event('input', { bubbles: true }));
    };
    new MutationObserver(() => {
      const says = holder?.querySelector('.status')?.textContent.trim() === 'saved';
      if (!says) return;
      acknowledge(value);
      type();
    }).observe(holder ?? input, { subtree: true, childList: true, characterData: true });
    type();
  }, first);
  // At least one save is acknowledged before each kill, or nothing would be tested.
  for (let waited = 0; last < 0 && waited < 60_000; waited += 20) await pause(20);
  return {
    withinMs: 1_500,
    acknowledged: () => Math.max(0, last - first),
    underWay: () => true, // it never rests
    check: async (again) => {
      await again.goto(`${url}#/log`);
      const [kept] = (await stored(again, ['blocks'])).records['blocks'] ?? [];
      const source = Number((kept as { source?: string } | undefined)?.source || 0);
      if (source < last) return `${last} was called saved, and ${source} is there`;
      return undefined;
    },
  };
}

/** Brings in a table of ten blocks of forty items. */
async function importing(page: Page, url: string, round: number): Promise<Begun> {
  const before = await counted(page, 'items');
  await page.goto(`${url}#/log/bring-in`);
  await page.getByLabel('Choose a file of results').setInputFiles({
    name: 'kill.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(tableOf(round)),
  });
  const button = page.getByRole('button', { name: /^Bring in [\d,]+ items/ });
  await button.waitFor();
  const done = acknowledgedBy(page, /items came in from kill\.csv/);
  await button.click();
  return allOrNothing('items', before, done);
}

/** Merges a backup of as many notes, none of which is here. */
async function bringingIn(page: Page, url: string, round: number): Promise<Begun> {
  const before = await counted(page, 'notes');
  await page.goto(`${url}#/safekeeping`);
  await page.locator('input[type="file"]').setInputFiles({
    name: 'kill.zip',
    mimeType: 'application/zip',
    buffer: Buffer.from(writeBackup(notesOf(round))),
  });
  const button = page.getByRole('button', { name: 'Merge it' });
  await button.waitFor();
  const done = acknowledgedBy(page, /The backup is in\./);
  await button.click();
  return allOrNothing('notes', before, done);
}

function allOrNothing(store: string, before: number, done: () => boolean): Begun {
  return {
    withinMs: 900,
    acknowledged: () => (done() ? 1 : 0),
    underWay: () => !done(),
    check: async (again) => {
      const after = await counted(again, store);
      if (after !== before && after !== before + batch) {
        return `${after - before} of ${batch} ${store} are there`;
      }
      if (done() && after === before) return `${batch} ${store} were called saved and are gone`;
      return undefined;
    },
  };
}

/** A database of version 1 is brought up to date by the first start, which is killed. */
async function killMigrating(options: KillOptions): Promise<KillReport> {
  const { url, choice, kills, random } = options;
  const file = new URL('../../fixtures/database/v1.json', import.meta.url);
  const saved = grown(JSON.parse(await readFile(file, 'utf8')) as SavedDatabase);
  const wrong: string[] = [];
  let midWork = 0;
  for (let round = 0; round < kills; round++) {
    const profile = await options.makeProfile();
    const context = await launch(choice, profile);
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(`${url}icon.svg`);
    await putDatabase(page, saved);
    const start = { shown: false };
    // Not awaited: the kill falls somewhere into the start.
    void page
      .goto(url)
      .then(() => page.locator('main h1').first().waitFor())
      .then(() => (start.shown = true))
      .catch(() => undefined);
    await pause(random() * 1_500);
    await killBrowser(context);
    if (!start.shown) midWork += 1;

    const again = await launch(choice, profile);
    const after = await opened(again, url);
    const { version, records } = await stored(after, ['blocks', 'items', 'concepts']);
    if (version < 3) wrong.push(`migrating, kill ${round}: the database is at ${version}`);
    for (const { name, records: expected } of saved.stores) {
      if (!records[name]) continue;
      const [is, was] = [records[name].length, expected.length];
      if (is !== was) wrong.push(`migrating, kill ${round}: ${is} of ${was} ${name} are there`);
    }
    await again.close();
    options.say?.(`migrating: ${round + 1} of ${kills}`);
  }
  return { kills, acknowledged: 0, midWork, wrong };
}

/** Many blocks like the saved one, so that the migration takes a while. */
function grown(saved: SavedDatabase): SavedDatabase {
  return {
    ...saved,
    stores: saved.stores.map((store) => {
      const [pattern] = store.records as { id: string }[];
      if (store.name !== 'items' || !pattern) return store;
      const more = Array.from({ length: 1_500 }, (_, i) => ({ ...pattern, id: `grown-${i}` }));
      return { ...store, records: [...store.records, ...more] };
    }),
  };
}

/** Opens the app and goes past the first screen, where it is one. */
async function opened(context: BrowserContext, url: string): Promise<Page> {
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(url);
  const screens = page.getByRole('navigation', { name: 'Screens' });
  const begin = page.getByRole('button', { name: /^Begin with an empty map/ });
  await screens.or(begin).first().waitFor();
  if (await begin.isVisible()) await begin.click();
  await screens.waitFor();
  return page;
}

const counted = async (page: Page, store: string) =>
  (await stored(page, [store])).records[store]?.length ?? 0;

/** Whether a text has been shown so far. */
function acknowledgedBy(page: Page, text: RegExp): () => boolean {
  let seen = false;
  page
    .getByText(text)
    .first()
    .waitFor({ timeout: 60_000 })
    .then(() => (seen = true))
    .catch(() => undefined); // the browser was killed first
  return () => seen;
}

function tableOf(round: number): string {
  const day = new Date(Date.UTC(2020, 0, 1 + round)).toISOString().slice(0, 10);
  const rows = Array.from({ length: batch }, (_, i) => {
    const [block, item] = [Math.floor(i / 40) + 1, (i % 40) + 1];
    return `${day},${round}-${block},${item},${i % 3 === 0 ? 'wrong' : 'correct'}`;
  });
  return `Date,Block,Item,Result\r\n${rows.join('\r\n')}\r\n`;
}

function notesOf(round: number): BackupContent {
  const notes = Array.from({ length: batch }, (_, i) => ({
    id: `kill-${round}-${i}`,
    title: `Note ${i}`,
    text: `Round ${round}. `.repeat(40),
    concepts: [],
    disciplines: [],
    systems: [],
    stamp: {
      origin: 'quay',
      revision: { quay: 1 },
      changedAt: 1_770_000_000_000,
      deleted: false,
    },
  }));
  const content = { madeAt: 1_770_000_000_000, device: 'quay', records: { notes }, pictures: [] };
  return content as unknown as BackupContent;
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
