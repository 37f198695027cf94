/** Hostile text and pictures from every kind of file, shown on every screen: nothing runs, nothing leaves. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { writeBackup, type BackupContent } from '../../../src/formats/backup/write-backup';
import { attacks } from '../../fixtures/attacks';
import { withExif } from '../../fixtures/exif';
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
  const readings = attacks.map((text, i) => ({
    id: `reading-${i}`,
    title: text,
    source: text,
    locator: text,
    minutes: 5,
    kind: 'text',
    main: [`concept-${i}`],
    touched: [],
    stamp,
  }));
  const lines = attacks.map((text, i) => ({
    id: `line-${i}`,
    text,
    heading: text,
    concepts: [`concept-${i}`],
    timesNeeded: 1,
    stamp,
  }));
  const place = { name: attacks[2], position: 0, stamp };
  const records = {
    disciplines: [{ id: 'discipline', ...place }],
    systems: [{ id: 'system', ...place }],
    concepts,
    blocks: [block],
    items,
    notes,
    readings,
    lines,
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

/** The bytes of every stored picture, as text of one character a byte. */
function storedPictures(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const opening = indexedDB.open('hypocentre');
    await new Promise((resolve) => (opening.onsuccess = resolve));
    const request = opening.result.transaction('pictureBytes').objectStore('pictureBytes').getAll();
    await new Promise((resolve) => (request.onsuccess = resolve));
    opening.result.close();
    return (request.result as { bytes: ArrayBuffer }[]).map(({ bytes }) =>
      Array.from(new Uint8Array(bytes), (byte) => String.fromCharCode(byte)).join(''),
    );
  });
}

/** On the review form: a photograph that says where it was taken comes in without it; a script is none. */
async function picturesAreCleaned(page: Page): Promise<void> {
  const secret = 'Skerry 54.321 N 10.123 E';
  const plain = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(60, 40);
    const context = canvas.getContext('2d');
    context?.fillRect(5, 5, 20, 30);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg' });
    const bytes = new Uint8Array(await blob.arrayBuffer());
    return Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  });
  const photograph = withExif(Buffer.from(plain, 'latin1'), secret);
  expect(photograph.includes(secret)).toBe(true);
  expect(photograph.includes('Exif')).toBe(true);
  const input = page.locator('input[type="file"][accept="image/*"]');
  await input.setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer: photograph });
  await page.getByRole('button', { name: 'Add the picture' }).click();
  await page.getByRole('button', { name: 'Take out picture 1' }).waitFor();
  const [stored, ...others] = await storedPictures(page);
  expect(others).toEqual([]);
  expect(stored?.length).toBeGreaterThan(50);
  for (const trace of ['Exif', secret, 'GPS']) expect(stored).not.toContain(trace);

  await input.setInputFiles({
    name: 'a.svg',
    mimeType: 'image/svg+xml',
    buffer: Buffer.from(
      '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>parent.ran=1;window.ran=1</script></svg>',
    ),
  });
  await page.getByRole('button', { name: 'Add the picture' }).click();
  await page
    .getByRole('alert')
    .filter({ hasText: 'no picture that the browser can read' })
    .waitFor();
  expect(await storedPictures(page)).toHaveLength(1);
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
    await page.getByText('Which they are, by name').click();
    await page.getByRole('button', { name: 'Replace with it' }).click();
    await page.getByText('The backup is in.').waitFor();
    expect(await page.getByText(/things? in the file cannot be brought in/).count()).toBe(0);

    await page.goto(`${address}#/screens`);
    const places = await page
      .getByRole('main')
      .getByRole('link')
      .evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''));
    expect(places.length).toBeGreaterThanOrEqual(3);
    const more = [
      '#/log/block/block',
      '#/log/block/block/item-0',
      '#/roots/concept-1',
      '#/concept/concept-1',
      '#/note/note-6',
      '#/sheet/page',
      '#/map?view=table',
      '#/find?q=anion',
    ];
    for (const place of [...places, ...more]) {
      await page.goto(address + place);
      await page.locator('main h1').first().waitFor();
      await page.waitForLoadState('networkidle');
      expect(await seen(), place).toEqual([undefined]);
    }
    // Where notes are cleaned of what could run, the policy stops a base address before that, and says so.
    const notStopped = app.faults.filter(
      (fault) => !/base-uri 'none'.+ has been blocked/.test(fault),
    );
    (app.faults as string[]).splice(0, Infinity, ...notStopped);
    await page.goto(`${address}#/log/block/block/item-0`);
    const piece = page.getByLabel('Missing piece', { exact: true });
    expect(await piece.inputValue()).toBe(attacks[0]);
    await picturesAreCleaned(page);

    await page.goto(`${address}#/safekeeping`);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Misses as a table (CSV)' }).click();
    const csv = await readFile(await (await download).path(), 'utf8');
    expect(csv).toContain("'=HYPERLINK");
    for (const cell of csv.split(/[\r\n]+|,/)) expect(cell).not.toMatch(/^"?[=+@]/);
  });

  it('from a map, a list of readings and notes is shown as text', async () => {
    const app = await openApp();
    const { page } = app;
    const seen = watch(app);
    await begin(page);
    const address = page.url().replace(/#.*$/, '');
    const file = (name: string, mimeType: string, text: string) => ({
      name,
      mimeType,
      buffer: Buffer.from(text),
    });

    await page.goto(`${address}#/map?view=files`);
    const labels = attacks.map(
      (text, i) =>
        `<https://example.org/c${i}> a skos:Concept ; skos:prefLabel ${JSON.stringify(text)}@en ; skos:definition ${JSON.stringify(text)}@en .`,
    );
    const skos = `@prefix skos: <http://www.w3.org/2004/02/skos/core#> .\n${labels.join('\n')}\n`;
    await page
      .getByLabel('A SKOS file (.ttl, .nt, .jsonld)')
      .setInputFiles(file('<img src=x onerror="window.ran=1">.ttl', 'text/turtle', skos));
    const found = page.getByRole('region', { name: 'What the file holds' });
    await found.waitFor();
    await found.getByRole('button').first().click();
    await page.getByText(/^Done: bring in \d+ concepts/).waitFor();
    for (const view of ['section', 'tree', 'table']) {
      await page.goto(`${address}#/map?view=${view}`);
      await page.locator('main h1').first().waitFor();
      await page.waitForLoadState('networkidle');
      expect(await seen(), view).toEqual([undefined]);
    }

    await page.goto(`${address}#/reading`);
    await page.getByText('Paste a list, or open a CSV file').first().click();
    await page
      .getByLabel('List', { exact: true })
      .fill(
        attacks
          .map((text) => `${text.replaceAll(';', ',')}; ${text.replaceAll(';', ',')}; p. 3; 5 min`)
          .join('\n'),
      );
    await page.getByText(/^\d+ readings? to add/).waitFor();
    expect(await seen()).toEqual([undefined]);

    await page.goto(`${address}#/notes`);
    await page
      .getByLabel('Bring in single .md or .txt files')
      .setInputFiles(
        attacks.map((text, i) => file(`note ${i}.md`, 'text/markdown', `# ${text}\n\n${text}\n`)),
      );
    await page.getByText(/^\d+ notes? brought in\./).waitFor();
    expect(await seen()).toEqual([undefined]);
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
