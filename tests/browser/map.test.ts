/** The map: drawn, walked by keys, edited and taken back; the same in the tree; in and out of files; accessible. */
import { readFile } from 'node:fs/promises';
import type { Download, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeViolations } from './harness/axe';
import { PHONE } from './harness/open-app';
import { openDemo } from './harness/open-demo';

const openMap = (options: Parameters<typeof openDemo>[0] = {}) =>
  openDemo({ place: '#/map', ...options });

/** What is stored of everything that names concepts, stamps left out, in a fixed order. */
function stored(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const [info] = await indexedDB.databases();
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const open = indexedDB.open(info?.name ?? '');
      open.onsuccess = () => {
        resolve(open.result);
      };
      open.onerror = () => {
        reject(new Error('the database does not open'));
      };
    });
    const kinds = ['concepts', 'items', 'lines', 'notes', 'readings'];
    const tx = db.transaction(kinds);
    const lists = await Promise.all(
      kinds.map(
        (kind) =>
          new Promise<string[]>((resolve) => {
            const request = tx.objectStore(kind).getAll();
            request.onsuccess = () => {
              const records = request.result as { id: string; stamp: { deleted?: boolean } }[];
              resolve(
                records
                  .filter(({ stamp }) => !stamp.deleted)
                  .map((record) =>
                    JSON.stringify(record, (key, value: unknown) =>
                      key === 'stamp' ? undefined : value,
                    ),
                  )
                  .sort(),
              );
            };
          }),
      ),
    );
    db.close();
    return lists.flat().join('\n');
  });
}

async function textOf(download: Download): Promise<string> {
  return readFile(await download.path(), 'utf8');
}

/** A vocabulary of another make: no rests on, broader and narrower, two languages. */
function foreignTurtle(count: number): string {
  const concepts = Array.from(
    { length: count },
    (_, i) =>
      `<http://example.org/c/${i}> a skos:Concept ; skos:prefLabel "Foreign concept ${i}"@en, "Fremder Begriff ${i}"@de ; skos:broader <http://example.org/c/${Math.floor((i - 1) / 3)}> .`,
  );
  return [
    '@prefix skos: <http://www.w3.org/2004/02/skos/core#> .',
    '<http://example.org/s> a skos:ConceptScheme ; skos:prefLabel "Foreign words"@en .',
    ...concepts,
  ].join('\n');
}

describe('the map', () => {
  it('loads cytoscape with this screen only, is walked by keys, looked at in three ways, edited, and taken back', async () => {
    const { page, requests, address } = await openDemo();
    expect(requests.some((request) => request.includes('section-view'))).toBe(false);
    await page.goto(`${address}#/map`);
    const heads = page.getByRole('group', { name: 'Organ systems' });
    await heads.getByRole('button').first().waitFor();
    expect(requests.some((request) => request.includes('section-view'))).toBe(true);
    // Section, legend and controls all stand on the first screen.
    const foot = await page.getByRole('button', { name: 'Names' }).boundingBox();
    expect(foot!.y + foot!.height).toBeLessThanOrEqual(800);

    const whole = page.getByRole('button', { name: 'Whole' });
    const names = page.getByRole('button', { name: 'Names' });
    expect(await whole.getAttribute('aria-pressed')).toBe('true');
    await names.click();
    await expect.poll(() => names.getAttribute('aria-pressed')).toBe('true');
    await heads.getByRole('button', { name: 'Kidney' }).click();
    await expect.poll(() => page.url()).toContain('system=renal');
    await whole.click();
    await expect.poll(() => whole.getAttribute('aria-pressed')).toBe('true');
    expect(page.url()).not.toContain('system=');

    const picture = page.getByRole('application', { name: /^The section/ });
    await picture.focus();
    // Nearer by keys: names come into reach and go again.
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    await expect.poll(() => names.getAttribute('aria-pressed')).toBe('true');
    await page.keyboard.press('0');
    await expect.poll(() => whole.getAttribute('aria-pressed')).toBe('true');

    await page.keyboard.press('ArrowDown');
    const panel = page.getByRole('complementary');
    const name = page.locator('#map-concept-name');
    await name.waitFor();
    const first = await name.textContent();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => name.textContent()).not.toBe(first);
    await page.keyboard.press('Enter');
    expect(await name.evaluate((node) => node === document.activeElement)).toBe(true);

    await panel.getByText('Edit', { exact: true }).click();
    await panel.getByLabel(/^Name/).first().fill('A name of my own');
    await panel.getByRole('button', { name: 'Rename' }).click();
    await expect.poll(() => name.textContent()).toBe('A name of my own');
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await expect.poll(() => name.textContent()).not.toBe('A name of my own');
  });

  it('links, splits, merges and deletes by its forms, names a loop, and takes all of it back and again', async () => {
    const { page, address } = await openMap();
    const panel = page.getByRole('complementary');
    const name = page.locator('#map-concept-name');
    const open = async (id: string, part: string) => {
      // A notice may lie over the panel's foot.
      const close = page.getByRole('button', { name: /^Close: / });
      while ((await close.count()) > 0) await close.first().click();
      await page.goto(`${address}#/map?concept=${id}`);
      const edit = panel.getByText('Edit', { exact: true });
      await edit.waitFor();
      if (!(await panel.getByRole('button', { name: 'Rename' }).isVisible())) await edit.click();
      await panel.locator('summary', { hasText: new RegExp(`^${part}$`) }).click();
    };
    const choose = async (label: string, letters: string) => {
      await panel.getByLabel(label).pressSequentially(letters);
      await page.getByRole('option').first().click();
    };
    const before = await stored(page);

    // A link that would close a loop is refused with the loop named.
    await open('ph-pka', 'Links');
    await choose('Let it rest on', 'Bicarbonate buffer');
    await panel.getByRole('button', { name: 'Link', exact: true }).click();
    await panel
      .getByRole('alert')
      .filter({ hasText: /loop: pH, pKa and buffers rests on .* rests on pH, pKa and buffers/ })
      .waitFor();
    expect(await stored(page)).toBe(before);

    // One that says nothing new is pointed out and may be made.
    await open('renal-tubular-acidosis', 'Links');
    await choose('Let it rest on', 'pH, pKa');
    await panel.getByText(/It does already, by way of/).waitFor();
    await panel.getByLabel(/^Strength: /).fill('0.6');
    await panel.getByRole('button', { name: 'Link', exact: true }).click();
    await panel
      .getByText(/^Says nothing new/)
      .first()
      .waitFor();

    await open('bicarbonate-buffer', 'Split');
    await panel.getByLabel('Name of the new concept').fill('half-life and steady state');
    await panel.getByRole('button', { name: 'Split', exact: true }).click();
    // Nothing is made under a name that is taken.
    await panel.getByRole('alert').filter({ hasText: 'bears this name already' }).waitFor();
    await panel.getByLabel('Name of the new concept').fill('Carbonic anhydrase');
    await panel.getByRole('radio', { name: 'name both' }).check();
    await panel.getByRole('button', { name: 'Split', exact: true }).click();
    await expect.poll(() => name.textContent()).toBe('Carbonic anhydrase');

    await open('half-life-steady-state', 'Merge');
    await choose('Merge into this one', 'Carbonic anh');
    await panel.getByRole('button', { name: /^Merge “Carbonic anhydrase/ }).click();
    await panel.getByText(/Also called .*Carbonic anhydrase/).waitFor();

    await open('type-iii-hypersensitivity', 'Delete');
    await panel.getByText(/^On it hang [1-9]\d* items/).waitFor();
    await choose('Hand them to', 'Half-life');
    await panel.getByText(/takes them over/).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await panel.getByRole('button', { name: /^Delete “/ }).click();
    await panel.waitFor({ state: 'hidden' });

    const after = await stored(page);
    expect(after).not.toBe(before);
    expect(after).not.toContain('"id":"type-iii-hypersensitivity"');
    // Four steps: link, split, merge, delete.
    for (const [key, text] of [
      ['Control+z', before],
      ['Control+y', after],
    ] as const) {
      await page.locator('#screen-title').focus();
      for (let step = 0; step < 4; step++) {
        await page.keyboard.press(key);
        await page.waitForTimeout(150);
      }
      await expect.poll(() => stored(page)).toBe(text);
    }
  });

  it('goes out as SKOS, GraphML, SVG, PNG and on one page, and takes a foreign vocabulary in after a preview', async () => {
    const { page, address } = await openMap({
      before: () => {
        // The sheet stays until the test has printed it.
        window.print = () => undefined;
      },
    });
    await page.goto(`${address}#/map?view=files`);
    const download = async (button: string) => {
      const arriving = page.waitForEvent('download');
      await page.getByRole('button', { name: button }).click();
      return arriving;
    };
    expect(await textOf(await download('SKOS as Turtle'))).toContain('hyp:restsOn');
    expect(JSON.parse(await textOf(await download('SKOS as JSON-LD')))).toHaveProperty('@graph');
    expect(await textOf(await download('GraphML'))).toContain('<graphml');

    const svg = await textOf(await download('Picture as SVG'));
    // A bar for each concept of the demo's map, each with its title.
    expect(svg.match(/<polygon/g)).toHaveLength(620);
    expect(svg).toContain('Bicarbonate buffer system');
    const png = await readFile(await (await download('Picture as PNG')).path());
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
    // 14 columns of 150 at twice the size, and the scale of depth.
    expect(width).toBeGreaterThan(14 * 150 * 2);
    // A blank picture of that size would be some kB.
    expect(png.length).toBeGreaterThan(200_000);
    expect(height).toBeGreaterThan(2000);

    await page.getByRole('button', { name: 'Print to one page' }).click();
    await page.locator('.map-sheet svg').waitFor({ state: 'attached' });
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await page.locator('.map-sheet').count()).toBe(0);

    await page.getByLabel(/^A SKOS file/).setInputFiles({
      name: 'words.ttl',
      mimeType: 'text/turtle',
      buffer: Buffer.from(foreignTurtle(400)),
    });
    const preview = page.getByRole('region', { name: 'What the file holds' });
    await preview.getByText(/^400 concepts, 399 links/).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await preview.getByRole('button', { name: 'Bring in 400 concepts' }).click();
    await preview.waitFor({ state: 'hidden' });
    await page.goto(`${address}#/map?view=table`);
    await page.getByRole('button', { name: 'Show more (920 left)' }).waitFor();
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await page.getByRole('button', { name: 'Show more (520 left)' }).waitFor();

    // What is no map says so.
    await page.goto(`${address}#/map?view=files`);
    await page.getByLabel(/^A SKOS file/).setInputFiles({
      name: 'broken.ttl',
      mimeType: 'text/turtle',
      buffer: Buffer.from('<a> <b> "no end'),
    });
    await page.getByRole('alert').filter({ hasText: 'not Turtle' }).waitFor();

    // A long read can be stopped, and begun again.
    await page.getByLabel(/^A SKOS file/).setInputFiles({
      name: 'long.ttl',
      mimeType: 'text/turtle',
      buffer: Buffer.from(foreignTurtle(9_000)),
    });
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByText('Stopped: nothing has come in.').waitFor();
    await page.getByRole('button', { name: 'Read long.ttl again' }).click();
    await page.getByRole('button', { name: 'Stop' }).waitFor();
  });

  it('holds the same as a tree and a table, and shows proposals, all accessible', async () => {
    const { page, address } = await openMap();
    // The frame of the map: an organ system more is a column more.
    await page.goto(`${address}#/map?view=parts`);
    const systems = page.getByRole('region', { name: 'Organ systems' });
    await systems.getByLabel('Name of an organ system to add').fill('Eye and ear');
    await systems.getByRole('button', { name: 'Add an organ system' }).click();
    await systems.getByRole('button', { name: 'Delete Eye and ear' }).click();
    await systems.getByText('It is named by 0 concepts').waitFor();
    expect(await axeViolations(page), 'parts').toEqual([]);
    await systems.getByRole('button', { name: 'Delete “Eye and ear”' }).click();
    await systems.getByRole('button', { name: 'Delete Eye and ear' }).waitFor({ state: 'hidden' });

    for (const [view, role] of [
      ['tree', 'tree'],
      ['table', 'table'],
    ] as const) {
      await page.goto(`${address}#/map?view=${view}`);
      await page.getByRole(role).waitFor();
      expect(await axeViolations(page), view).toEqual([]);
    }
    await page.goto(`${address}#/map?view=help`);
    const missing = page.getByRole('region', { name: 'Missing links' });
    await missing.getByRole('heading').waitFor();
    expect(await axeViolations(page), 'help').toEqual([]);

    // One is put away for good, one accepted; Undo brings each back.
    const implied = page.getByRole('region', { name: 'Links that say nothing new' });
    const count = async () =>
      Number(/\d+/.exec(await implied.getByRole('heading').innerText())?.[0]);
    const atFirst = await count();
    await implied
      .getByRole('button', { name: /^Put away/ })
      .first()
      .click();
    await expect.poll(count).toBe(atFirst - 1);
    await implied
      .getByRole('button', { name: /^Unlink/ })
      .first()
      .click();
    await expect.poll(count).toBeLessThan(atFirst - 1);
    for (let step = 0; step < 2; step++) {
      await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
    }
    await expect.poll(count).toBe(atFirst);
  });

  it('shows one system at a time on a phone, turned by a swipe', async () => {
    const { page } = await openMap({ viewport: PHONE, touch: true });
    const select = page.getByRole('combobox', { name: 'System' });
    await select.waitFor();
    const first = await select.inputValue();
    await page.getByRole('button', { name: 'Next system' }).click();
    await expect.poll(() => select.inputValue()).not.toBe(first);

    const session = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number) =>
      session.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y: 620 }],
      });
    await touch('touchStart', 120);
    for (const x of [160, 220, 280]) await touch('touchMove', x);
    await touch('touchEnd', 280);
    await expect.poll(() => select.inputValue()).toBe(first);
    expect(await axeViolations(page)).toEqual([]);
  });

  it('shows a chosen concept by itself on a phone, and leads back to where it lay', async () => {
    const { page, address } = await openMap({ viewport: PHONE, touch: true });
    const bar = (name: string) => page.getByRole('button', { name: new RegExp(`^${name}`) });
    const panel = page.getByRole('complementary', { name: 'Bicarbonate buffer system' });
    const inSight = (name: string) =>
      bar(name).evaluate((element) => {
        const { top, bottom } = element.getBoundingClientRect();
        return top >= 0 && bottom <= window.innerHeight && element === document.activeElement;
      });
    // By an address, which names no system: its own is opened.
    await page.goto(`${address}#/map?concept=bicarbonate-buffer`);
    // The first ranking sorts the layers anew.
    await panel.getByText(/traced misses, gap chance/).waitFor();
    expect(await bar('Bicarbonate buffer system').count()).toBe(0);
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(3_000);
    await panel.getByRole('button', { name: 'Close' }).click();
    await expect.poll(() => inSight('Bicarbonate buffer system')).toBe(true);

    await bar('Bicarbonate buffer system').click();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.id))
      .toBe('map-concept-name');
    expect(await axeViolations(page)).toEqual([]);
    await page.goBack();
    await expect.poll(() => inSight('Bicarbonate buffer system')).toBe(true);

    // Another system is turned to: nothing holds it back.
    const select = page.getByRole('combobox', { name: 'System' });
    const before = await select.inputValue();
    await page.getByRole('button', { name: 'Next system' }).click();
    await expect.poll(() => select.inputValue()).not.toBe(before);
  });
});
