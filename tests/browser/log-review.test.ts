/** The review of a block: by keyboard with the keys counted, by thumb, with pictures, and afterwards. */
import type { BrowserContext, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { openApp, PHONE } from './harness/open-app';
import { markByKeyboard, reviewByKeyboard, twelveMisses } from './keyboard-review';

async function blockWith(page: Page, misses: string): Promise<void> {
  await page.getByRole('button', { name: /^Begin with the starter map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
  await page.goto(page.url().replace(/#.*$/, '') + '#/log');
  // A nervous thumb: still one block.
  await page.getByRole('button', { name: 'New block' }).dblclick();
  await page.getByText('40 items, none marked yet').waitFor();
  await page.getByLabel('Or type the numbers').fill(misses);
  await page.getByRole('button', { name: 'Mark as missed' }).click();
  await page.getByText(/^miss 1 of/).waitFor();
}

/** One finger across the review, from one side to the other. */
async function swipe(page: Page, context: BrowserContext, toLeft: boolean): Promise<void> {
  const review = page.getByRole('heading', { name: 'Review', exact: true });
  await review.scrollIntoViewIfNeeded();
  const { y } = (await review.boundingBox()) ?? { y: 0 };
  const session = await context.newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x?: number) =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: x === undefined ? [] : [{ x, y: y + 10 }],
    });
  const [from, to] = toLeft ? [320, 90] : [90, 320];
  await touch('touchStart', from);
  for (const x of [from * 0.6 + to * 0.4, to]) await touch('touchMove', x);
  await touch('touchEnd');
  await session.detach();
}

/** A drawing as a PNG file, made in the page itself. */
const drawing = (page: Page) =>
  page.evaluate(async () => {
    const canvas = new OffscreenCanvas(2_000, 1_000);
    const context = canvas.getContext('2d');
    context?.fillRect(200, 200, 900, 300);
    const blob = await canvas.convertToBlob({ type: 'image/png' });
    return [...new Uint8Array(await blob.arrayBuffer())];
  });

describe('the review of a block', () => {
  it('is done by keyboard alone with at most twelve keys a miss beyond its text, letters of concepts counted', async () => {
    const { page } = await openApp();
    await page.getByRole('button', { name: /^Begin with the starter map/ }).click();
    await page.getByRole('navigation', { name: 'Screens' }).waitFor();
    await page.goto(page.url().replace(/#.*$/, '') + '#/log');
    const misses = twelveMisses.slice(0, 3);
    await markByKeyboard(
      page,
      misses.map(({ item }) => item),
    );
    const { keys } = await reviewByKeyboard(page, misses);
    expect(keys / misses.length).toBeLessThanOrEqual(12);
    expect(keys).toBeGreaterThanOrEqual(5 * misses.length); // fewer could not do it: the count is true
    await page.reload();
    await page.getByText('3 of 3 misses reviewed').waitFor();
    expect(await page.getByRole('radio', { name: 'not known' }).isChecked()).toBe(true);
  });

  it('takes a pasted or dropped picture with its words, shows it after a reload, and undoes both in one step', async () => {
    const { page } = await openApp();
    await blockWith(page, '3');
    const bytes = await drawing(page);
    await page.evaluate((all) => {
      const data = new DataTransfer();
      data.items.add(new File([new Uint8Array(all)], 'loop.png', { type: 'image/png' }));
      document.body.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    }, bytes);
    await page.getByLabel('What does it show?').fill('A black bar on white');
    await page.getByRole('button', { name: 'Add the picture' }).click();
    const picture = page.getByRole('img', { name: 'A black bar on white' });
    await picture.waitFor();
    await page.reload();
    await page.getByText('Pictures (1)').click();
    await picture.waitFor();
    // 2,000 by 1,000 px came in; the longer side is made 1,600.
    expect(
      await picture.evaluate((image: HTMLImageElement) => [
        image.naturalWidth,
        image.naturalHeight,
      ]),
    ).toEqual([1_600, 800]);
    expect(await axeViolations(page)).toEqual([]);

    await page.getByRole('button', { name: 'Take out picture 1' }).click();
    await picture.waitFor({ state: 'detached' });
    await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
    await picture.waitFor();

    // Dropped beside the frame it is still one for the open miss.
    await page.evaluate((all) => {
      const data = new DataTransfer();
      data.items.add(new File([new Uint8Array(all)], 'bar.png', { type: 'image/png' }));
      document.body.dispatchEvent(
        new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }),
      );
    }, bytes);
    await page.getByLabel('What does it show?').fill('The bar once more');
    await page.getByRole('button', { name: 'Add the picture' }).click();
    await page.getByRole('img', { name: 'The bar once more' }).waitFor();

    await page
      .getByLabel('Add a picture', { exact: true })
      .last()
      .setInputFiles({
        name: 'table.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from('date,result'),
      });
    await page.getByRole('button', { name: 'Add the picture' }).click();
    await page.getByText('This is no picture that the browser can read.').waitFor();
  });

  it('goes on to the recall sheet and into a note by one press each', async () => {
    const { page } = await openApp();
    await blockWith(page, '3');
    const piece = page.getByLabel('Missing piece', { exact: true });
    await piece.fill('The gap counts what nobody measured.');
    await page.getByRole('button', { name: 'To the recall sheet' }).dblclick();
    await page.getByRole('link', { name: 'On the recall sheet' }).waitFor();
    await page.getByRole('button', { name: 'Make a note of it' }).click();
    await page.getByRole('link', { name: 'Open its note' }).waitFor();
    await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Make a note of it' }).waitFor();
    await page.getByRole('link', { name: 'On the recall sheet' }).waitFor();
  });

  it('gives topics to right items by thumb, by pasting and by counting, and says what it gains', async () => {
    const { page, context } = await openApp({ viewport: PHONE, touch: true });
    await blockWith(page, '3, 20');
    await page.getByLabel('Topic', { exact: true }).fill('anion g');
    await page.getByRole('option', { name: /^Anion gap/ }).tap();
    await swipe(page, context, true);
    await page.getByText('miss 2 of 2', { exact: true }).waitFor();
    // What was named last is offered by a tap into the empty box, in another miss too.
    await page.getByLabel('Named cause', { exact: true }).tap();
    await page.getByRole('option', { name: 'Anion gap of late' }).tap();
    await page.getByRole('button', { name: 'Take out Anion gap from Named cause' }).waitFor();
    await swipe(page, context, false);
    await page.getByText('miss 1 of 2', { exact: true }).waitFor();
    await page.getByText('Exposure for 1 of 40 items: 1 by topic.').waitFor();

    await page.getByText('By tapping topics, item by item').tap();
    await page.getByText('What was item 1 about?').waitFor();
    await page.getByRole('button', { name: 'Anion gap', exact: true }).tap();
    await page.getByText('What was item 2 about?').waitFor();

    await page.getByText('By pasting item numbers and topics').tap();
    await page
      .getByLabel('One item a line: its number, then its topic')
      .fill('5, Diuretics\n6, anion gaps\n99, Diuretics');
    await page.getByText('Line 3: This block has items 1 to 40; the line says 99.').waitFor();
    await page.getByRole('button', { name: 'Give these topics' }).tap();
    await page.getByText('Exposure for 4 of 40 items: 4 by topic.').waitFor();

    await page.getByText('By counting each organ system').tap();
    const count = page.locator('.counts input').first();
    await count.fill('11');
    await count.blur();
    await page
      .getByText('Exposure for 15 of 40 items: 4 by topic, 11 by organ system only.')
      .waitFor();
    await count.fill('39');
    await count.blur();
    await page.getByText('but only 35 of the block have no record of their own').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      390,
    );
  });

  it('sums the block up, and the log finds it by what was missing', async () => {
    const { page } = await openApp();
    await blockWith(page, '3, 7');
    await page.getByLabel('Minutes used', { exact: true }).fill('50');
    await page.getByLabel('Review minutes').fill('125');
    await page.getByLabel('Missing piece', { exact: true }).fill('Nobody measured the gap.');
    await page.getByRole('radio', { name: 'misread' }).check();
    const after = page.getByRole('region', { name: 'Afterwards' });
    await after.getByText('2.5', { exact: true }).waitFor();
    await after.getByText('1.3', { exact: true }).waitFor(); // 50 minutes for 40 items
    await after.getByText('misread').waitFor();
    await after.getByText('1 miss gives no reason.').waitFor();

    await page.getByRole('link', { name: 'Log', exact: true }).first().click();
    await page.getByLabel('Find blocks').fill('measur');
    await page.getByText('1 of 1 block.').waitFor();
    await page.getByLabel('Find blocks').fill('rudder');
    await page.getByText('0 of 1 block.').waitFor();
  });
});
