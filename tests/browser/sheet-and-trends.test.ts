/** The recall sheet from its first line to a rehearsal, and Trends with a day written down. */
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { openApp } from './harness/open-app';

describe('recall sheet and trends', () => {
  it('grow a sheet, print it on one page, rehearse it, and show the trends of the demo', async () => {
    const { page } = await openApp();
    await page.getByRole('button', { name: /Look at the demo/ }).click();
    await page.getByRole('list', { name: /^Roots/ }).waitFor();
    const address = page.url().replace(/#.*$/, '');

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

    await page.goto(`${address}#/sheet/page`);
    await page.getByText(/^\d+ lines fit on one page of A4/).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pdf.toString('latin1').match(/\/Type \/Page\b/g)).toHaveLength(1);

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
    expect(await axeViolations(page)).toEqual([]);
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
