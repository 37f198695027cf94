/** A block written down by hand, by keyboard, and what two tabs and a crash do to it. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { makeProfile, openApp, PHONE } from './harness/open-app';

async function beginWith(page: Page, choice: RegExp): Promise<void> {
  await page.getByRole('button', { name: choice }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
}

/** Opens a fresh block from the log and waits for its strip. */
async function newBlock(page: Page): Promise<void> {
  await page.goto(page.url().replace(/#.*$/, '') + '#/log');
  await page.getByRole('button', { name: 'New block' }).click();
  await page.getByRole('button', { name: 'Item 1, right' }).waitFor();
}

/** Types into a field and waits until the field itself says that it is saved. */
async function writeSaved(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.locator('xpath=..').getByText('saved', { exact: true }).waitFor();
}

describe('a block by hand', () => {
  it('is marked, reviewed and ranked with the keyboard alone, and is there after a reload', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with the starter map/);
    await newBlock(page);

    // Three cells along the strip: the third item, then the fourth.
    await page.getByRole('button', { name: 'Item 1, right' }).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Item 3, missed' }).waitFor();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Item 4, missed' }).waitFor();

    for (const label of ['Topic', 'Named cause']) {
      await page.getByLabel(label, { exact: true }).focus();
      await page.keyboard.type('anion g');
      await page.getByRole('option', { name: /^Anion gap/ }).waitFor();
      await page.keyboard.press('Enter');
      await page.getByRole('button', { name: `Take out Anion gap from ${label}` }).waitFor();
    }
    await writeSaved(page, 'Missing piece', 'The gap counts the anions nobody measured.');
    await page.getByRole('radio', { name: 'not known' }).focus();
    await page.keyboard.press('Space');
    await page.getByText('1 of 2 misses reviewed').waitFor();

    await page.reload();
    await page.getByText('1 of 2 misses reviewed').waitFor();
    await page.getByRole('button', { name: 'Item 3, missed' }).waitFor();

    await page.getByRole('link', { name: /^Roots/ }).click();
    await page.getByText('40 items, 2 misses.').waitFor();
  });

  it('marks typed numbers and ranges, says what is wrong with others, and takes a step back', async () => {
    const { page } = await openApp({ viewport: PHONE });
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    const numbers = page.getByLabel('Or type the numbers');
    await numbers.fill('3, 12-14, 77');
    await page.getByRole('button', { name: 'Mark as missed' }).click();
    await page
      .getByRole('alert')
      .filter({ hasText: '“77”: this block has items 1 to 40.' })
      .waitFor();
    expect(await page.getByRole('button', { name: /, missed$/ }).count()).toBe(0);

    await numbers.fill('3, 12-14');
    await page.getByRole('button', { name: 'Mark as missed' }).click();
    await page.getByRole('button', { name: 'Item 14, missed' }).waitFor();
    expect(await page.getByRole('button', { name: /, missed$/ }).count()).toBe(4);

    await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Item 14, right' }).waitFor();
    await page.getByRole('banner').getByRole('button', { name: 'Redo' }).click();
    await page.getByRole('button', { name: 'Item 14, missed' }).waitFor();
  });

  it('shows a contradiction instead of mending it unseen', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    await page.getByLabel('Or type the numbers').fill('30-33');
    await page.getByRole('button', { name: 'Mark as missed' }).click();
    await page.getByRole('button', { name: 'Item 33, missed' }).waitFor();
    await writeSaved(page, 'Items', '31');
    await page
      .getByText('The block says 31 items, but 2 items beyond that are marked: 32, 33.')
      .waitFor();
    await writeSaved(page, 'Missed in all', '2');
    await page.getByText('The block says 2 missed, but 4 are marked as missed.').waitFor();
  });

  it('refuses a number that is none, and keeps what was stored', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    await page.getByLabel('Items', { exact: true }).fill('forty');
    await page.getByText('Write a whole number from 1 to 500.').waitFor();
    await page.reload();
    await page.getByRole('button', { name: 'Item 40, right' }).waitFor();
    expect(await page.getByLabel('Items', { exact: true }).inputValue()).toBe('40');
  });

  it('grows a concept for a topic the map does not have', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    await page.getByRole('button', { name: 'Item 1, right' }).click();
    const topic = page.getByLabel('Topic', { exact: true });
    await topic.fill('Ballast water');
    await page.getByRole('option', { name: 'Add “Ballast water” to the map' }).click();
    await page.getByRole('button', { name: 'Take out Ballast water from Topic' }).waitFor();
    await page.getByRole('link', { name: /^Roots/ }).click();
    await page.getByText('Too few misses to rank yet').waitFor();
  });

  it('shows in one tab what another saved, and asks before either is lost', async () => {
    const { page, context } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    const other = await context.newPage();
    await other.goto(page.url());
    await other.getByRole('button', { name: 'Item 1, right' }).waitFor();

    await writeSaved(page, 'Where from', 'Pilot boat notes');
    await expect
      .poll(() => other.getByLabel('Where from', { exact: true }).inputValue())
      .toBe('Pilot boat notes');

    // This tab's timers stand still: the first letter is saved at once, the rest waits, while the other tab saves.
    await page.clock.install();
    await page.clock.pauseAt(Date.now() + 60_000);
    await page.getByLabel('Where from', { exact: true }).fill('M');
    await expect.poll(() => other.getByLabel('Where from', { exact: true }).inputValue()).toBe('M');
    await page.getByLabel('Where from', { exact: true }).fill('Mine');
    await writeSaved(other, 'Where from', 'Theirs');
    await page.getByText('Another tab wrote here while you were typing: “Theirs”').waitFor();
    expect(await other.getByLabel('Where from', { exact: true }).inputValue()).toBe('Theirs');

    await page.getByRole('button', { name: 'Keep what I typed' }).click();
    await expect
      .poll(() => other.getByLabel('Where from', { exact: true }).inputValue())
      .toBe('Mine');
  });

  it('stays at the miss under review while its fields are saved, and moves on when asked', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with the starter map/);
    await newBlock(page);
    await page.getByLabel('Or type the numbers').fill('3, 7, 9');
    await page.getByRole('button', { name: 'Mark as missed' }).click();
    await page.getByText('miss 1 of 3').waitFor();

    const topic = page.getByLabel('Topic', { exact: true });
    await topic.pressSequentially('loop diur');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Take out Diuretics from Topic' }).waitFor();
    expect(await page.getByRole('listbox').count()).toBe(0);
    expect(await topic.inputValue()).toBe('');

    const piece = page.getByLabel('Missing piece', { exact: true });
    await piece.pressSequentially('The gap counts ');
    await piece.locator('xpath=..').getByText('saved', { exact: true }).waitFor();
    await piece.pressSequentially('what nobody measured.');
    expect(await piece.inputValue()).toBe('The gap counts what nobody measured.');
    await page.getByText('1 of 3 misses reviewed').waitFor();
    await page.getByText('Item 3', { exact: true }).waitFor();

    await page.getByRole('button', { name: 'Next' }).click();
    await page.getByText('Item 7', { exact: true }).waitFor();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('open-item');
    await page.goBack();
    await page.getByRole('heading', { level: 1, name: 'Log' }).waitFor();
  });

  it('deletes a block and brings it back from the notice, whatever came in between', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    await page.getByLabel('Or type the numbers').fill('1-5');
    await page.getByRole('button', { name: 'Mark as missed' }).click();
    await page.getByText('Marked 5 items as missed.').waitFor();

    // The notice stands for the marks, not for what was typed since.
    await writeSaved(page, 'Where from', 'Pilot boat notes');
    await page.getByRole('status').getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('alert').filter({ hasText: 'Other changes came after it.' }).waitFor();
    expect(await page.getByLabel('Where from', { exact: true }).inputValue()).toBe(
      'Pilot boat notes',
    );

    await page.getByRole('button', { name: 'Delete block' }).click();
    await page.getByText('No block yet').waitFor();
    await page.getByRole('status').getByRole('button', { name: 'Undo' }).click();
    await page.getByText('5 of 5 misses to review').waitFor();
  });

  it('offers concepts from the missing piece, and goes from miss to miss by key', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with the starter map/);
    await newBlock(page);
    await page.getByLabel('Or type the numbers').fill('2, 4');
    await page.getByRole('button', { name: 'Mark as missed' }).click();
    const piece = page.getByLabel('Missing piece', { exact: true });
    await piece.fill('The anion gap counts what nobody measured.');
    await page.getByRole('button', { name: 'Anion gap', exact: true }).click();
    await page.getByRole('button', { name: 'Take out Anion gap from Named cause' }).waitFor();
    await piece.press('Alt+PageDown');
    await page.getByText('Item 4', { exact: true }).waitFor();
    await page.keyboard.press('Alt+PageUp');
    await page.getByText('Item 2', { exact: true }).waitFor();
  });

  it('marks items as guessed right, which still count as right', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    await page.getByRole('radio', { name: 'guessed right' }).check();
    await page.getByRole('button', { name: 'Item 2, right' }).click();
    await page.getByRole('button', { name: 'Item 2, guessed right' }).waitFor();
    await page.getByText('40 items, 0 missed').waitFor();
  });

  it('runs the review timer on through a reload and a clock set back', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    await page.getByRole('button', { name: 'Start the timer' }).click();
    await page.getByText('Reviewing for 0 minutes so far.').waitFor();
    await page.clock.install({ time: Date.now() + 25 * 60_000 });
    await page.reload();
    await page.getByText('Reviewing for 25 minutes so far.').waitFor();
    await page.clock.setSystemTime(Date.now() - 3 * 3_600_000);
    await page.clock.runFor(31_000);
    await page.getByRole('banner').getByTitle('Take back: review minutes').waitFor();
    await page.getByText('Reviewing for 25 minutes so far.').waitFor();
    await page.getByRole('button', { name: 'Stop the timer' }).click();
    expect(await page.getByLabel('Review minutes').inputValue()).toBe('25');
  });

  it('says so when a choice could not be saved, and shows what is stored', async () => {
    const { page } = await openApp();
    await beginWith(page, /^Begin with an empty map/);
    await newBlock(page);
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    await page.getByRole('combobox', { name: 'Timed', exact: true }).selectOption('untimed');
    await page.getByRole('alert').filter({ hasText: 'no room left' }).waitFor();
    expect(await page.getByRole('combobox', { name: 'Timed', exact: true }).inputValue()).toBe(
      'timed',
    );
    await page.getByLabel('Where from', { exact: true }).fill('Storm log');
    await page.getByText(/^Not saved: The browser has no room left/).waitFor();
  });

  it('loses no more than the last moment of typing when the browser is killed', async () => {
    const profileFolder = await makeProfile();
    const first = await openApp({ profileFolder });
    await beginWith(first.page, /^Begin with an empty map/);
    await newBlock(first.page);
    const url = first.page.url();
    const text = 'Ferry notebook, second voyage';
    await first.page
      .getByLabel('Where from', { exact: true })
      .pressSequentially(text, { delay: 60 });
    await first.kill();

    const second = await openApp({
      profileFolder,
      url: url.replace(/#.*$/, ''),
      place: url.replace(/^[^#]*/, ''),
    });
    const field = second.page.getByLabel('Where from', { exact: true });
    await field.waitFor();
    const kept = await field.inputValue();
    expect(text.startsWith(kept)).toBe(true);
    // Saved at least every 250 ms: some five keystrokes of 60 ms, and as much again for a slow machine.
    expect(text.length - kept.length).toBeLessThanOrEqual(12);
  });

  it('has every acknowledged save after the browser was killed', async () => {
    const profileFolder = await makeProfile();
    const first = await openApp({ profileFolder });
    await beginWith(first.page, /^Begin with an empty map/);
    await newBlock(first.page);
    const url = first.page.url();
    await writeSaved(first.page, 'Where from', 'Storm log');
    await first.kill();

    const second = await openApp({
      profileFolder,
      url: url.replace(/#.*$/, ''),
      place: url.replace(/^[^#]*/, ''),
    });
    await expect
      .poll(() => second.page.getByLabel('Where from', { exact: true }).inputValue())
      .toBe('Storm log');
  });
});
