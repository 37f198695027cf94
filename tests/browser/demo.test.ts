/** The demo: what it shows, that every screen of it is accessible, and that leaving it leaves nothing. */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { PROJECT_ROOT } from '../../src/serve/project.mjs';
import { axeViolations } from './harness/axe';
import { stored } from './faults/stored';
import { DESKTOP, openApp, PHONE } from './harness/open-app';
import { openDemo } from './harness/open-demo';

/** Every screen of the app, with what shows that it has arrived. */
const places = [
  { place: '#/log', arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Log' }) },
  {
    place: '#/log/bring-in',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Bring in results' }),
  },
  {
    place: '#/log/block/demo-block-60',
    arrived: (page: Page) => page.getByRole('button', { name: /^Item 1, / }),
  },
  { place: '#/roots', arrived: (page: Page) => page.getByRole('list', { name: /^Roots/ }) },
  {
    place: '#/roots/bicarbonate-buffer',
    arrived: (page: Page) => page.getByRole('article').getByRole('listitem').first(),
  },
  {
    place: '#/roots?view=beside-counting',
    arrived: (page: Page) => page.getByRole('heading', { name: 'By counting named causes' }),
  },
  {
    place: '#/map',
    // The picture on a desktop, one column on a phone.
    arrived: (page: Page) =>
      page
        .getByRole('group', { name: 'Organ systems' })
        .getByRole('button')
        .or(page.getByRole('combobox', { name: 'System' }))
        .first(),
  },
  {
    place: '#/map?concept=bicarbonate-buffer',
    arrived: (page: Page) => page.getByRole('heading', { name: 'What rests on it' }),
  },
  {
    place: '#/sheet',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Recall sheet' }),
  },
  {
    place: '#/sheet/page',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'The page' }),
  },
  {
    place: '#/sheet/rehearse',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Rehearsal' }),
  },
  {
    place: '#/trends',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Trends' }),
  },
  {
    place: '#/trends/days',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Sleep, activity, mood' }),
  },
  {
    place: '#/today',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Today' }),
  },
  {
    place: '#/reading',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Read next' }),
  },
  {
    place: '#/looks',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Second look' }),
  },
  {
    place: '#/looks?mode=pages',
    arrived: (page: Page) => page.getByRole('button', { name: 'Next page' }),
  },
  {
    place: '#/sheet/line/demo-line-buffer',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Recall sheet' }),
  },
  {
    place: '#/notes',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Notes' }),
  },
  {
    place: '#/note/demo-note-gap',
    arrived: (page: Page) => page.getByLabel('Title', { exact: true }),
  },
  {
    place: '#/find?q=bicarbonate',
    arrived: (page: Page) => page.getByText(/^\d+ results among/),
  },
  {
    place: '#/concept/bicarbonate-buffer',
    arrived: (page: Page) =>
      page.getByRole('heading', { level: 1, name: 'Bicarbonate buffer system' }),
  },
  {
    place: '#/safekeeping',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'Safekeeping' }),
  },
  {
    place: '#/about',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'About' }),
  },
  {
    place: '#/method',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'The method' }),
  },
  {
    place: '#/screens',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'All screens' }),
  },
  {
    place: '#/nowhere',
    arrived: (page: Page) => page.getByRole('heading', { level: 1, name: 'No such screen' }),
  },
];

/** Addresses without a place above, and why. */
const withoutPlace = new Map([
  ['/', 'opens Today'],
  ['/sheet/new', 'goes on to the line it makes'],
]);

const sidewaysPx = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

/** The spacing that a reader may set by WCAG 2.2, success criterion 1.4.12. */
const spaceText = (page: Page, on: boolean) =>
  page.evaluate((spaced) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(
      `* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
       p { margin-block-end: 2em !important; }`,
    );
    document.adoptedStyleSheets = spaced ? [sheet] : [];
  }, on);

describe('the demo', () => {
  it('has a place in this list for every address of the app', async () => {
    const source = await readFile(path.join(PROJECT_ROOT, 'src/app/routes.ts'), 'utf8');
    const patterns = [...source.matchAll(/^ {2}'(\/[^']*)': /gm)].map((match) => match[1]!);
    expect(patterns.length).toBeGreaterThan(20);
    const missing = patterns.filter((pattern) => {
      const steps = pattern.replace(/\/:\w+\?/g, '(/[^/]+)?').replace(/:\w+/g, '[^/]+');
      const fits = new RegExp(`^#${steps}(\\?.*)?$`);
      return !withoutPlace.has(pattern) && !places.some(({ place }) => fits.test(place));
    });
    expect(missing).toEqual([]);
  });

  it.each([
    { viewport: DESKTOP, colorScheme: 'light' as const },
    { viewport: { width: 320, height: 640 }, colorScheme: 'dark' as const },
  ])(
    'has no accessibility fault and no sideways scrolling on any screen at $viewport.width px, $colorScheme',
    async ({ viewport, colorScheme }) => {
      const { page, address } = await openDemo({ viewport, colorScheme });
      for (const { place, arrived } of places) {
        await page.goto(address + place);
        await arrived(page).waitFor();
        expect(await axeViolations(page), place).toEqual([]);
        expect(await sidewaysPx(page), `${place} scrolls sideways`).toBeLessThanOrEqual(0);
        await spaceText(page, true);
        expect(await sidewaysPx(page), `${place} with text spaced out`).toBeLessThanOrEqual(0);
        await spaceText(page, false);
      }
    },
  );

  it('puts the planted deep gaps first, says so on every screen, and leaves nothing behind', async () => {
    const { page } = await openApp();
    await page.getByRole('button', { name: /Look at the demo/ }).click();
    await page
      .getByRole('list', { name: /^Roots/ })
      .getByRole('listitem')
      .first()
      .waitFor();
    await page.getByRole('note').filter({ hasText: 'All of it is invented' }).waitFor();
    const names = await page
      .getByRole('list', { name: /^Roots/ })
      .getByRole('link')
      .allTextContents();
    // The three that were planted deep, in seed-data/demo/scenario.ts.
    expect(names.slice(0, 3).sort()).toEqual([
      'Bicarbonate buffer system',
      'Half-life and steady state',
      'Type III hypersensitivity',
    ]);

    await page.getByRole('link', { name: 'Leave the demo' }).click();
    await page.getByRole('button', { name: 'Leave the demo' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Leave the demo' }).click();
    await page.getByRole('heading', { name: 'How do you want to begin?' }).waitFor();
    const counts = await page.evaluate(async () => {
      const [info] = await indexedDB.databases();
      const open = indexedDB.open(info?.name ?? '');
      const db = await new Promise<IDBDatabase>(
        (resolve) => (open.onsuccess = () => resolve(open.result)),
      );
      const tx = db.transaction([...db.objectStoreNames]);
      return Promise.all(
        [...db.objectStoreNames].map(
          (name) =>
            new Promise<number>((resolve) => {
              const request = tx.objectStore(name).count();
              request.onsuccess = () => resolve(request.result);
            }),
        ),
      );
    });
    // The device's own id may be made again; nothing else is left.
    expect(counts.reduce((sum, count) => sum + count, 0)).toBeLessThanOrEqual(1);
  });

  it('leads in five steps from accuracy to the root, by keyboard, and can be left for good', async () => {
    const { page } = await openDemo();
    const tour = page.getByRole('region', { name: 'Tour of the demo' });
    await tour.getByRole('link', { name: 'Begin the tour' }).press('Enter');
    const screens = ['Trends', 'Roots', 'Read next', 'Second look', 'Recall sheet'];
    for (const [index, screen] of screens.entries()) {
      await tour.getByText(`${index + 1} of 5, ${screen}.`).waitFor();
      await page.getByRole('heading', { level: 1, name: screen }).waitFor();
      const next = screens[index + 1];
      if (next) await tour.getByRole('link', { name: `Next: ${next}` }).press('Enter');
    }
    expect(await tour.getByRole('link', { name: /^Next/ }).count()).toBe(0);
    await tour.getByRole('link', { name: 'Back: Second look' }).press('Enter');
    await tour.getByText('4 of 5, Second look.').waitFor();
    await tour.getByRole('link', { name: 'Back: Read next' }).press('Enter');
    await tour.getByRole('link', { name: 'Back: Roots' }).press('Enter');
    await page.getByRole('heading', { name: 'Bicarbonate buffer system' }).first().waitFor();

    // It takes up again where it stood.
    await page.reload();
    await tour.getByText('2 of 5, Roots.').waitFor();
    await tour.getByRole('button', { name: 'Leave the tour' }).press('Enter');
    await tour.getByRole('link', { name: 'Take the tour' }).waitFor();
    await page.reload();
    await tour.getByRole('link', { name: 'Take the tour' }).waitFor();
    expect(await tour.getByText('of 5,').count()).toBe(0);
  });

  it('takes another map beside its own or in its place, keeps every entry, and gives it back', async () => {
    const { page, address } = await openDemo({ place: '#/about' });
    await page.getByRole('radio', { name: /veterinary map/ }).check();
    await page.getByRole('button', { name: 'See what would change' }).click();
    await page.getByText('102 concepts: come in').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Add it' }).click();
    await page.getByText(/and 722 concepts/).waitFor();
    await page
      .getByRole('status')
      .getByRole('button', { name: 'Undo' })
      .or(page.getByRole('button', { name: 'Undo' }))
      .first()
      .click();
    await page.getByText(/and 620 concepts/).waitFor();

    const written = ['blocks', 'items', 'notes', 'looks', 'lines', 'days', 'rehearsals'];
    const before = await stored(page, [...written, 'readingEvents']);
    await page.getByRole('radio', { name: /in place of my map/ }).check();
    await page.getByRole('button', { name: 'See what would change' }).click();
    const going = page.getByText(/^\d+ concepts: go, since nothing uses them/);
    const gone = parseInt(await going.innerText());
    expect(gone).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Use this map' }).click();
    await page.getByText(`and ${620 + 102 - gone} concepts`).waitFor();
    expect(await stored(page, [...written, 'readingEvents'])).toEqual(before);
    // Old misses are still traced, and their concepts still named.
    await page.goto(`${address}#/roots`);
    await page.getByRole('link', { name: 'Bicarbonate buffer system' }).first().waitFor();
  });

  it('opens a root to the miss behind it and back, and keeps filters and period in the address', async () => {
    const { page, address } = await openDemo();
    await page.getByRole('link', { name: 'Bicarbonate buffer system' }).click();
    const article = page.getByRole('article');
    await article.getByRole('heading', { name: 'Evidence' }).waitFor();
    const first = article.locator('ol').getByRole('listitem').first();
    const itemName = /Item (\d+)/.exec((await first.textContent()) ?? '')?.[1];
    await first.getByRole('link').click();
    await page.getByText(`Item ${itemName ?? '?'}`, { exact: true }).waitFor();
    await page.goBack();
    await article.getByRole('heading', { name: 'Bicarbonate buffer system' }).waitFor();

    // One far down the list is closed where it was opened.
    await page.setViewportSize(PHONE);
    await page.goto(`${address}#/roots`);
    const last = page
      .getByRole('list', { name: /^Roots/ })
      .getByRole('link')
      .last();
    await last.click();
    await article.getByRole('link', { name: 'Close' }).click();
    await expect
      .poll(() =>
        last.evaluate((link) => {
          const { top, bottom } = link.getBoundingClientRect();
          return top > 0 && bottom < innerHeight && link === document.activeElement;
        }),
      )
      .toBe(true);
    await page.setViewportSize(DESKTOP);

    // What is filtered is the same after a reload.
    await page.goto(`${address}#/roots`);
    await page
      .getByRole('combobox', { name: 'System', exact: true })
      .selectOption({ label: 'Renal and urinary' });
    await expect.poll(() => page.url()).toContain('system=renal');
    const before = await page
      .getByRole('list', { name: /^Roots/ })
      .getByRole('link')
      .allTextContents();
    await page.reload();
    await page.getByRole('list', { name: /^Roots/ }).waitFor();
    expect(await page.getByRole('combobox', { name: 'System', exact: true }).inputValue()).toBe(
      'renal',
    );
    expect(
      await page
        .getByRole('list', { name: /^Roots/ })
        .getByRole('link')
        .allTextContents(),
    ).toEqual(before);

    // A period is traced from its own blocks alone.
    await page.goto(`${address}#/roots`);
    const facts = page.getByText(/^[\d,]+ items, /);
    const all = await facts.innerText();
    const period = page.getByRole('combobox', { name: 'Period' });
    await period.selectOption({ label: 'The last 4 weeks' });
    await page.getByText('Traced from the blocks of the last 4 weeks alone').waitFor();
    const itemsIn = (text: string) => Number(/^[\d,]+/.exec(text)?.[0].replace(/,/g, ''));
    await expect.poll(async () => itemsIn(await facts.innerText())).toBeLessThan(itemsIn(all));
    await period.selectOption({ label: 'All blocks' });
    await expect.poll(async () => itemsIn(await facts.innerText())).toBe(itemsIn(all));
  });
});
