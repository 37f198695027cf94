/** The recall sheet from its first line to a rehearsal, and Trends with a day written down. */
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import type { Page } from 'playwright-core';
import { openDemo } from './harness/open-demo';

/** Pages that come out of the printer, and their size in points. */
async function printed(page: Page): Promise<{ pages: number; size: string | undefined }> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf);
  return {
    pages: pdf.match(/\/Type \/Page\b/g)?.length ?? 0,
    size: box ? `${Math.round(Number(box[1]))} x ${Math.round(Number(box[2]))}` : undefined,
  };
}

describe('recall sheet and trends', () => {
  it('grow a sheet, print it on one page, rehearse it, and show the trends of the demo', async () => {
    const { page, address } = await openDemo();

    // A line on a concept, in one step.
    await page.goto(`${address}#/sheet/new?concept=bicarbonate-buffer`);
    await page
      .getByLabel('Text', { exact: true })
      .fill('Anion gap = Na - (Cl + HCO3), normal 8 to 12; $\\frac{a}{b}$');
    await page.locator('math').first().waitFor({ state: 'attached' });
    await page
      .getByRole('button', { name: /^Pin: / })
      .first()
      .click();
    await page.getByRole('heading', { name: / of 43 lines in 15 minutes$/ }).waitFor();
    expect(await axeViolations(page)).toEqual([]);

    // A line far down opens where it lies, and stays there when it is closed.
    await page.goto(`${address}#/sheet`);
    const far = page.getByRole('main').getByRole('listitem').nth(14);
    const hasPlace = () =>
      far.evaluate((line) => {
        const { top } = line.getBoundingClientRect();
        return top >= -1 && top < innerHeight && line.contains(document.activeElement);
      });
    await far.getByRole('link', { name: /^Edit/ }).click();
    await expect.poll(hasPlace).toBe(true);
    await far.getByRole('link', { name: /^Close/ }).click();
    await expect.poll(hasPlace).toBe(true);

    await page.goto(`${address}#/sheet/page`);
    await page.getByText(/^\d+ lines fit on one page of A4/).waitFor();
    // A4 is 210 x 297 mm, Letter 8.5 x 11 in; a point is 1/72 in.
    expect(await printed(page)).toEqual({ pages: 1, size: '595 x 842' });
    await page.getByRole('radio', { name: 'Letter' }).check();
    await page.getByText(/^\d+ lines fit on one page of Letter/).waitFor();
    expect(await printed(page)).toEqual({ pages: 1, size: '612 x 792' });
    await page.getByRole('radio', { name: 'Blank, with headings' }).check();
    await page.getByText(/^\d+ lines fit on one page of Letter/).waitFor();
    const sheetOfPaper = page.getByRole('region', { name: 'The page as printed' });
    expect(await sheetOfPaper.innerText()).not.toContain('normal 8 to 12');
    await page.getByRole('radio', { name: 'Large print' }).check();
    await page.getByText(/lines in 18 points, on as many pages as they need/).waitFor();
    expect((await printed(page)).pages).toBeGreaterThan(1);

    // Pinned and far too long: said, and printed whole all the same.
    await page.goto(`${address}#/sheet/new?note=demo-note-gas-steps`);
    const rows = Array.from({ length: 170 }, (_, i) => `Row ${i + 1} of a list too long to write`);
    await page.getByLabel('Text', { exact: true }).fill(rows.join('\n'));
    const long = page.getByRole('listitem').filter({ hasText: 'Row 170 of a list' });
    await long.getByRole('button', { name: /^Pin: / }).click();
    await page.getByText(/^The pinned lines alone take/).waitFor();
    await page.goto(`${address}#/sheet/page`);
    await page.getByText('It does not fit on one page.').waitFor();
    expect((await printed(page)).pages).toBeGreaterThan(1);
    await page.goBack();
    await long.getByRole('button', { name: /^Ban: / }).click();
    await page.getByText(/^Writing takes/).waitFor();

    await page.goto(`${address}#/sheet/rehearse`);
    await page.getByRole('button', { name: 'Start typing' }).click();
    await page.getByLabel('Blank page').fill('anoin gap = Na - (Cl + HCO3) normal 8 to 12');
    // What was typed is stored while it is typed: a reload loses the clock's last second at most.
    await page.waitForTimeout(2_000);
    await page.reload();
    await page.getByRole('button', { name: 'Go on with it' }).click();
    expect(await page.getByLabel('Blank page').inputValue()).toContain('anoin gap');
    await page.getByRole('button', { name: 'Done: compare' }).click();
    const found = page.getByRole('heading', { name: /^\d+ of \d\d lines/ });
    await found.waitFor();
    expect(await axeViolations(page)).toEqual([]);
    const before = await found.innerText();
    await page
      .getByRole('checkbox', { name: /^It was there/, checked: false })
      .first()
      .check();
    await expect.poll(() => found.innerText()).not.toBe(before);
    await page.getByRole('button', { name: 'Keep this rehearsal' }).click();
    await page.getByRole('button', { name: 'Keep this rehearsal' }).waitFor({ state: 'detached' });

    await page.goto(`${address}#/trends`);
    await page.getByText('What was foretold, and what came').first().waitFor();
    // The points of a figure are walked by key and read out.
    const figure = page.getByRole('figure', { name: 'Right items, week by week' });
    await figure.locator('[data-point][tabindex="0"]').focus();
    const first = await figure.getByRole('status').innerText();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => figure.getByRole('status').innerText()).not.toBe(first);

    await page.goto(`${address}#/trends/days`);
    await page.getByLabel('Hours slept in the night before').fill('7,5');
    await page.getByText(/^\d+ days written down/).waitFor();
    expect(await axeViolations(page)).toEqual([]);
  });
});
