/** Hostile text from a backup and from a table, shown on every screen: nothing runs, nothing leaves. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { writeBackup, type BackupContent } from '../../../src/formats/backup/write-backup';
import { attacks } from '../../fixtures/attacks';
import { openApp, type OpenedApp } from '../harness/open-app';

const at = 1_770_000_000_000;
const stamp = { origin: 'quay', revision: { quay: 1 }, changedAt: at, deleted: false };

/** Every attack as the name, text or reference of some record of each kind that holds text. */
function hostileBackup(): Uint8Array {
  const concepts = attacks.map((name, i) => ({
    id: `concept-${i}`,
    name,
    aliases: [name],
    covers: name,
    mnemonic: name,
    disciplines: ['discipline'],
    systems: ['system'],
    restsOn: i > 0 ? [{ concept: `concept-${i - 1}`, strength: 0.6 }] : [],
    stamp,
  }));
  const items = attacks.map((text, i) => ({
    id: `item-${i}`,
    block: 'block',
    position: i + 1,
    outcome: 'missed',
    topics: [`concept-${i}`],
    causes: [`concept-${i}`],
    reason: 'not-known',
    missingPiece: text,
    optionTurns: [{ option: 'B', turn: text }],
    reference: text,
    system: 'system',
    stamp,
  }));
  const notes = attacks.map((text, i) => ({
    id: `note-${i}`,
    title: text,
    text: `${text}\n\n${attacks.join('\n\n')}`,
    concepts: [`concept-${i}`],
    disciplines: [],
    systems: [],
    stamp,
  }));
  const block = {
    id: 'block',
    day: 20_480,
    itemCount: attacks.length,
    missedCount: attacks.length,
    timed: true,
    mixed: true,
    source: attacks[0],
    stamp,
  };
  const place = { name: attacks[2], position: 0, stamp };
  const records = {
    disciplines: [{ id: 'discipline', ...place }],
    systems: [{ id: 'system', ...place }],
    concepts,
    blocks: [block],
    items,
    notes,
  };
  const content = { madeAt: at, device: 'quay', records, pictures: [] };
  return writeBackup(content as unknown as BackupContent);
}

/** Sees dialogs and the mark an attack would leave; the harness sees requests and policy reports. */
function watch({ page }: OpenedApp): () => Promise<unknown> {
  const dialogs: string[] = [];
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  return async () => [await page.evaluate('window.ran'), ...dialogs];
}

async function begin(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Begin with an empty map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
}

describe('hostile text', () => {
  it('from a backup is shown as text on every screen, and leaves as text in the table of misses', async () => {
    const app = await openApp();
    const { page } = app;
    const seen = watch(app);
    await begin(page);
    const address = page.url().replace(/#.*$/, '');
    await page.goto(`${address}#/safekeeping`);
    await page.locator('input[type="file"]').setInputFiles({
      name: '<img src=x onerror="window.ran=1">.zip',
      mimeType: 'application/zip',
      buffer: Buffer.from(hostileBackup()),
    });
    await page.getByRole('button', { name: 'Merge it' }).click();
    await page.getByText('The backup is in.').waitFor();
    expect(await page.getByText(/things? in the file cannot be brought in/).count()).toBe(0);

    await page.goto(`${address}#/screens`);
    const places = await page
      .getByRole('main')
      .getByRole('link')
      .evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''));
    expect(places.length).toBeGreaterThanOrEqual(3);
    const more = ['#/log/block/block', '#/log/block/block/item-0', '#/roots/concept-1'];
    for (const place of [...places, ...more]) {
      await page.goto(address + place);
      await page.locator('main h1').first().waitFor();
      await page.waitForLoadState('networkidle');
      expect(await seen(), place).toEqual([undefined]);
    }
    await page.goto(`${address}#/log/block/block/item-0`);
    const piece = page.getByLabel('Missing piece', { exact: true });
    expect(await piece.inputValue()).toBe(attacks[0]);

    await page.goto(`${address}#/safekeeping`);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Misses as a table (CSV)' }).click();
    const csv = await readFile(await (await download).path(), 'utf8');
    expect(csv).toContain("'=HYPERLINK");
    for (const cell of csv.split(/[\r\n]+|,/)) expect(cell).not.toMatch(/^"?[=+@]/);
  });

  it('from a table of results is shown as text while it is looked at and once it is in', async () => {
    const app = await openApp();
    const { page } = app;
    const seen = watch(app);
    await begin(page);
    const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
    const rows = attacks.map((text, i) =>
      ['2026-02-03', 1, i + 1, 'wrong', text, text].map((cell) => quoted(String(cell))).join(','),
    );
    await page.goto(page.url().replace(/#.*$/, '') + '#/log/bring-in');
    await page.getByLabel('Choose a file of results').setInputFiles({
      name: '<img src=x onerror="window.ran=1">.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(`Date,Block,Item,Result,Topic,Missing piece\r\n${rows.join('\r\n')}\r\n`),
    });
    const button = page.getByRole('button', { name: /^Bring in \d+ items?/ });
    await button.waitFor();
    expect(await seen()).toEqual([undefined]);
    await button.click();
    await page.getByText(/items? came in from/).waitFor();
    expect(await seen()).toEqual([undefined]);
  });
});
