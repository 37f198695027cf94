/**
 * Kills the browser at random moments while the app works, opens it again on the same profile and
 * looks at what is there: every acknowledged save, and nothing half done. Needs no test runner.
 */
import { readFile } from 'node:fs/promises';
import type { BrowserContext, Page } from 'playwright-core';
import type { SavedDatabase } from '../../fixtures/database/saved-database';
import type { BrowserChoice } from '../harness/chromium';
import { endedByItself, killBrowser, launch } from '../harness/launch';
import { works, type Begun } from './kill-work';
import { putDatabase, stored } from './stored';

/** What can be killed in one profile, one after another. */
export const activities = Object.keys(works) as readonly Activity[];
export type Activity = keyof typeof works;

export interface KillOptions {
  readonly url: string;
  readonly choice: BrowserChoice;
  readonly kills: number;
  /** Uniform in [0, 1). */
  readonly random: () => number;
  /** A fresh, empty folder. */
  readonly makeProfile: () => Promise<string>;
  readonly say?: (line: string) => void;
}

export interface KillReport {
  readonly kills: number;
  /** Saves that the page had said were saved before a kill. */
  readonly acknowledged: number;
  /** Kills that hit work which had been begun and not yet acknowledged. */
  readonly midWork: number;
  /** Rounds begun again because the browser had ended by itself; they count as no kill. */
  readonly begunAgain: number;
  /** What was wrong, in words; empty when all held. */
  readonly wrong: readonly string[];
}

/** Rounds begun again at most: a browser that keeps ending is a fault to be looked into. */
const mostBegunAgain = 10;

/**
 * Kills the app while it does one activity after another, all in one profile.
 *
 * @param order what is done in the rounds, in turn
 */
export async function killWhile(
  order: readonly Activity[],
  options: KillOptions,
): Promise<KillReport> {
  const { url, choice, kills, random } = options;
  const profile = await options.makeProfile();
  const wrong: string[] = [];
  let [acknowledged, midWork, begunAgain] = [0, 0, 0];
  let before: { readonly begun: Begun; readonly name: string } | undefined;

  for (let round = 0; round <= kills;) {
    const name = order[round % order.length];
    if (!name) throw new RangeError('killWhile: got no activity; need one');
    let context: BrowserContext | undefined;
    try {
      context = await launch(choice, profile);
      await context.addInitScript({ content: beforeThePage });
      const page = await opened(context, url);
      if (round > 0 && !(await wasThere(page)))
        wrong.push(`${name}, kill ${round}: the log is gone`);
      if (before) {
        const fault = await before.begun.check(page);
        if (fault !== undefined) wrong.push(`${before.name}: ${fault}`);
        acknowledged += before.begun.acknowledged();
        if (before.begun.underWay()) midWork += 1;
        before = undefined;
      }
      if (round < kills) {
        const begun = await works[name](page, url, round);
        await pause(random() * begun.withinMs);
        await killBrowser(context);
        before = { begun, name: `${name}, kill ${round}` };
        options.say?.(`${name}: ${round + 1} of ${kills}, ${wrong.length} wrong so far`);
      } else {
        await context.close();
      }
      round += 1;
    } catch (error) {
      // Short of memory, a browser ends without being killed: that round has proved nothing.
      if (!endedByItself(error) || ++begunAgain > mostBegunAgain) throw error;
      options.say?.(`${name}: the browser ended by itself; again`);
      await context?.close().catch(() => undefined);
    }
  }
  return { kills, acknowledged, midWork, begunAgain, wrong };
}

/** A database of version 1 is brought up to date by the first start, which is killed. */
export async function killMigrating(options: KillOptions): Promise<KillReport> {
  const { url, choice, kills, random } = options;
  const file = new URL('../../fixtures/database/v1.json', import.meta.url);
  const saved = grown(JSON.parse(await readFile(file, 'utf8')) as SavedDatabase);
  const wrong: string[] = [];
  let [midWork, begunAgain] = [0, 0];
  for (let round = 0; round < kills;) {
    try {
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
      if (!start.shown) midWork += 1;
      round += 1;
      options.say?.(`migrating: ${round} of ${kills}`);
    } catch (error) {
      if (!endedByItself(error) || ++begunAgain > mostBegunAgain) throw error;
      options.say?.('migrating: the browser ended by itself; again');
    }
  }
  return { kills, acknowledged: 0, midWork, begunAgain, wrong };
}

/**
 * The browser's question for a folder cannot be answered here: its private one stands in. And the
 * bench's compiler marks named functions with a helper that the page does not have.
 */
const beforeThePage = `
  window.showDirectoryPicker = () => navigator.storage.getDirectory();
  globalThis.__name = (made) => made;`;

/** Many items like the saved one, so that the migration takes a while. */
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

/** Whether the app found what was begun in an earlier round, and did not begin anew. */
const wasThere = (page: Page) => page.evaluate(() => !('begunAnew' in window));

/** Opens the app and goes past the first screen, where it is one. */
async function opened(context: BrowserContext, url: string): Promise<Page> {
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(url);
  const screens = page.getByRole('navigation', { name: 'Screens' });
  const begin = page.getByRole('button', { name: /^Begin with an empty map/ });
  await screens.or(begin).first().waitFor();
  if (await begin.isVisible()) {
    await page.evaluate(() => Object.assign(window, { begunAnew: true }));
    await begin.click();
  }
  await screens.waitFor();
  return page;
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
