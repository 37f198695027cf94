/** Read next, Second look and Today: a candidate's evening with what there is to read and to look at. */
import { readFile } from 'node:fs/promises';
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { PHONE } from './harness/open-app';
import { openDemo } from './harness/open-demo';

const list = [
  'title,locator,minutes,main',
  'Buffers from the start,ch. 2,35,Bicarbonate buffer system',
  'Acid and base in short,no. 4,20,Bicarbonate buffer system',
  'Steady states,ch. 9,30,Half-life and steady state',
  'Broken,ch. 1,soon,Half-life and steady state',
].join('\n');

const overflowPx = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

describe('an evening', () => {
  it('is planned, read, looked at and put into a calendar, on a phone', async () => {
    const { page, address } = await openDemo({ viewport: PHONE, colorScheme: 'dark', touch: true });

    await page.goto(`${address}#/reading`);
    await page.getByText('Paste a list, or open a CSV file').click();
    await page.getByLabel('List', { exact: true }).fill(list);
    await page.getByText(/Row 5: "soon" is no number of minutes/).waitFor();
    await page.getByRole('button', { name: 'Add 3 readings' }).click();
    const plan = page.getByRole('list', { name: /^The plan/ });
    await plan.getByRole('listitem').first().waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflowPx(page)).toBeLessThanOrEqual(0);

    // 40 minutes hold one of the two on buffers and nothing else; what is refused gives way.
    const titles = () => plan.getByRole('heading').allTextContents();
    const first = (await titles())[0]!;
    await page.getByRole('button', { name: new RegExp(`^Not tonight.*${first}`) }).click();
    await expect.poll(async () => (await titles()).includes(first)).toBe(false);
    await page.getByRole('button', { name: new RegExp(`^Offer again.*${first}`) }).click();
    await expect.poll(titles).toContain(first);

    // What was pinned and then read is done, though it was pinned.
    await page
      .getByRole('button', { name: new RegExp(`^Pin\\b.*${first}`) })
      .first()
      .click();
    await page.getByRole('button', { name: new RegExp(`^Pinned.*${first}`) }).waitFor();
    await page.getByRole('button', { name: new RegExp(`^Read\\b.*${first}`) }).click();
    await page.getByText(`Read: “${first}”`).waitFor();
    await page.getByRole('heading', { name: 'Read today' }).waitFor();
    await expect.poll(async () => (await titles()).includes(first)).toBe(false);
    await page.getByRole('status').getByRole('button', { name: 'Undo' }).click();
    await expect.poll(titles).toContain(first);

    // One more by its title: how long its words take, at the general pace, then at one's own.
    await page.getByLabel('Title', { exact: true }).fill('Own script on nerves');
    await page.getByRole('button', { name: 'Add a reading', exact: true }).click();
    await page.getByRole('heading', { name: 'Own script on nerves' }).waitFor();
    await page.getByLabel('or words').fill('3000');
    await page.getByText(/^Reckoned at 13 min, at 238 words a minute/).waitFor(); // 3,000 / 238 = 12.6
    await page.getByRole('button', { name: 'Read', exact: true }).click();
    await page.getByLabel('Minutes it took').fill('40');
    await page.getByText('Reckoned at 40 min, by your own measured pace.').waitFor();

    // What was read late last night has its minutes written this morning.
    await page.getByText(/^Read in the seven days before \(\d+\)/).click();
    const before = page.getByRole('group').filter({ hasText: 'Read in the seven days before' });
    await before.getByLabel('Minutes it took').first().fill('25');
    await before.getByText('saved', { exact: true }).waitFor();
    expect(await axeViolations(page)).toEqual([]);

    await page.goto(`${address}#/looks`);
    await page.getByRole('button', { name: 'I have 2 minutes' }).click();
    expect(await page.getByRole('button', { name: 'Had it' }).count()).toBe(0);
    const about = await page.getByRole('article').getByRole('heading', { level: 2 }).textContent();
    await page.getByRole('button', { name: 'What did I write?' }).click();
    await page.getByRole('button', { name: 'Had it' }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Had it' }).click();
    await page.getByText('Look 2 of 2').waitFor();
    await page.getByRole('button', { name: 'Undo the last look' }).click();
    await page.getByText('Look 1 of 2').waitFor();
    expect(await page.getByRole('article').getByRole('heading', { level: 2 }).textContent()).toBe(
      about,
    );
    for (const outcome of ['Not yet', 'Had it']) {
      await page.getByRole('button', { name: 'What did I write?' }).click();
      await page.getByRole('button', { name: outcome }).click();
    }
    await page.getByText('2 looks made').waitFor();

    // Paging through remembers its place, also after a reload.
    await page.goto(`${address}#/looks?mode=pages`);
    await page.getByText(/^Page 1 of/).waitFor();
    await page.getByRole('button', { name: 'Next page' }).click();
    await page.getByRole('button', { name: 'Next page' }).click();
    await page.getByText(/^Page 3 of/).waitFor();
    await page.reload();
    await page.getByText(/^Page 3 of/).waitFor();

    await page.goto(`${address}#/today`);
    const paperDay = new Date(Date.now() + 5 * 86_400_000).toISOString().slice(0, 10);
    await page.getByLabel('Paper day', { exact: true }).fill(paperDay);
    await page.getByRole('heading', { name: 'The last week' }).waitFor();
    await page.getByText(/^At this pace/).waitFor();
    await page.getByText('nothing new').waitFor();
    // A reading goes to another day by hand, and comes back by one step.
    const rows = page.locator('.week tbody tr');
    const moved = (await rows.first().locator('.reading span').first().textContent()) ?? '';
    await rows.first().getByRole('combobox').first().selectOption({ index: 2 });
    await rows.nth(2).getByText(moved).waitFor();
    expect(await rows.first().getByText(moved).count()).toBe(0);
    await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
    await rows.first().getByText(moved).waitFor();
    await page.getByRole('button', { name: /^Close/ }).click();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflowPx(page)).toBeLessThanOrEqual(0);

    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as a calendar file' }).click(),
    ]);
    const text = await readFile(await download.path(), 'utf8');
    const events = new ICAL.Component(ICAL.parse(text) as unknown[])
      .getAllSubcomponents('vevent')
      .map((event) => new ICAL.Event(event));
    const paper = events.find(({ uid }) => uid.startsWith('paper-day'));
    expect(paper?.startDate.toString()).toBe(paperDay);
    expect(events.some(({ summary }) => summary.startsWith('Second looks'))).toBe(true);
    for (const event of events)
      expect(event.startDate.toString().slice(0, 10) <= paperDay).toBe(true);

    // The app stays open for days; who comes back sees the new day, and what is let go.
    await page.goto(`${address}#/looks`);
    await page.clock.setFixedTime(Date.now() + 4 * 86_400_000);
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await page.getByText(/^No look was made for 3 days\. More is due/).waitFor();
    await page.getByText('Which ones').click();
    expect(await page.getByRole('listitem').filter({ hasText: ', due ' }).count()).toBe(12);
    await page.getByRole('button', { name: 'Let them wait as long again' }).click();
    await page.getByText('Which ones').waitFor({ state: 'detached' });
    await page.goto(`${address}#/today`);
    await page.getByText('Nothing new today: the paper is tomorrow.').waitFor();
  });
});
