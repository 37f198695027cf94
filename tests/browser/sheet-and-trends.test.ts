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

    // A line from a root's proposal, in one step.
    await page.goto(`${address}#/sheet`);
    await page.getByRole('link', { name: 'Write a line on Bicarbonate buffer system' }).click();
    await page
      .getByLabel('Text', { exact: true })
      .fill('Anion gap = Na - (Cl + HCO3), normal 8 to 12; $\\frac{a}{b}$');
    await page.locator('math').waitFor({ state: 'attached' });
    await page.getByRole('button', { name: /^Pin: / }).click();
    await page.getByRole('heading', { name: '1 of 1 line in 15 minutes' }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page
      .getByRole('link', { name: 'Write a line on Bicarbonate buffer system' })
      .waitFor({ state: 'detached' });

    await page.goto(`${address}#/sheet/page`);
    await page.getByText('1 line fits on one page of A4').waitFor();
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
    await page.getByRole('heading', { name: /^0 of 1 line in / }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('checkbox', { name: /^It was there/ }).check();
    await page.getByRole('heading', { name: /^1 of 1 line in / }).waitFor();
    await page.getByRole('button', { name: 'Keep this rehearsal' }).click();
    await page.getByText(/^One rehearsal so far/).waitFor();

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
    await page.getByText('1 day written down').waitFor();
    expect(await axeViolations(page)).toEqual([]);
  });
});
