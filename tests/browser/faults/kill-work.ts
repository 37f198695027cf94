/** What the app is set to do while it is killed, and how it is told afterwards that nothing was lost. */
import { createHash } from 'node:crypto';
import type { Page } from 'playwright-core';
import { readBackup } from '../../../src/formats/backup/read-backup';
import { writeBackup, type BackupContent } from '../../../src/formats/backup/write-backup';
import type { SavedPart } from '../../../src/search';
import { filesInPrivateFolder, putRecords, stored } from './stored';

/** Undefined when all is as it must be. */
export type Check = (page: Page) => Promise<string | undefined>;

export interface Begun {
  /** A kill within this time, in ms, hits the work. */
  readonly withinMs: number;
  readonly acknowledged: () => number;
  /** Whether the kill hit the work; asked after the check. */
  readonly underWay: () => boolean;
  readonly check: Check;
}

/** Begins the work on the opened app; what is awaited in it is not yet what the kill is to hit. */
export type Work = (page: Page, url: string, round: number) => Promise<Begun>;

/** Records brought in, indexed or backed up at once: enough that a kill can hit the work. */
const batch = 400;

/** Types numbers into a field, one after another, each as soon as the one before is called saved. */
const logging: Work = async (page, url) => {
  let last = -1;
  await page.exposeFunction('acknowledge', (value: number) => {
    last = value;
  });
  await page.goto(`${url}#/log`);
  const blocks = (await stored(page, ['blocks'])).records['blocks'] ?? [];
  const [block] = blocks;
  if (block) await page.goto(`${url}#/log/block/${block.id}`);
  else await page.getByRole('button', { name: 'New block' }).click();
  const field = page.getByLabel('Where from', { exact: true });
  await field.waitFor();
  const first = Number(await field.inputValue()) || 0;
  await field.evaluate((input: HTMLInputElement, start) => {
    const holder = input.parentElement;
    const acknowledge = (window as unknown as { acknowledge: (value: number) => void }).acknowledge;
    let value = start;
    const type = () => {
      value += 1;
      input.value = String(value);
      input.dispatchEvent(new Event('input', { bubbles: true }));
    };
    new MutationObserver(() => {
      const says = holder?.querySelector('.status')?.textContent.trim() === 'saved';
      if (!says) return;
      acknowledge(value);
      type();
    }).observe(holder ?? input, { subtree: true, childList: true, characterData: true });
    type();
  }, first);
  // At least one save is acknowledged before each kill, or nothing would be tested.
  for (let waited = 0; last < 0 && waited < 60_000; waited += 20) await pause(20);
  return {
    withinMs: 1_500,
    acknowledged: () => Math.max(0, last - first),
    underWay: () => true, // it never rests
    check: async (again) => {
      const [kept] = ((await stored(again, ['blocks'])).records['blocks'] ?? []).filter(
        ({ id }) => !block || id === block.id,
      );
      const source = Number((kept as { source?: string } | undefined)?.source || 0);
      if (source < last) return `${last} was called saved, and ${source} is there`;
      return undefined;
    },
  };
};

/** Brings in a table of ten blocks of forty items. */
const importing: Work = async (page, url, round) => {
  const before = await counted(page, 'items');
  await page.goto(`${url}#/log/bring-in`);
  await page.getByLabel('Choose a file of results').setInputFiles({
    name: 'kill.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(tableOf(round)),
  });
  const button = page.getByRole('button', { name: /^Bring in [\d,]+ items/ });
  await button.waitFor();
  const done = acknowledgedBy(page, /items came in from kill\.csv/);
  await button.click();
  return allOrNothing('items', before, done);
};

/** Merges a backup of as many notes, none of which is here. */
const bringingIn: Work = async (page, url, round) => {
  const before = await counted(page, 'notes');
  await page.goto(`${url}#/safekeeping`);
  await page.locator('input[type="file"]').setInputFiles({
    name: 'kill.zip',
    mimeType: 'application/zip',
    buffer: Buffer.from(writeBackup(backupOfNotes(`kill-${round}`, 'A reef.'))),
  });
  await page.getByRole('radio', { name: /^Merge/ }).check();
  const button = page.getByRole('button', { name: 'Merge it' });
  await button.waitFor();
  const done = acknowledgedBy(page, /The backup is in\./);
  await button.click();
  return allOrNothing('notes', before, done);
};

function allOrNothing(store: string, before: number, done: () => boolean): Begun {
  return {
    withinMs: 900,
    acknowledged: () => (done() ? 1 : 0),
    underWay: () => !done(),
    check: async (again) => {
      const after = await counted(again, store);
      if (after !== before && after !== before + batch) {
        return `${after - before} of ${batch} ${store} are there`;
      }
      if (done() && after === before) return `${batch} ${store} were called saved and are gone`;
      return undefined;
    },
  };
}

/** Every note has a new text, so that Find indexes all of them and saves the index. */
const indexing: Work = async (page, url, round) => {
  const word = `moored${round}`;
  await putRecords(page, 'notes', notesOf('moored', word, round + 1));
  const before = await counted(page, 'notes');
  await page.reload();
  await page.goto(`${url}#/find?q=${word}`);
  let saved = false;
  return {
    // The index is saved three seconds after the last change.
    withinMs: 4_500,
    acknowledged: () => 0,
    underWay: () => !saved,
    check: async (again) => {
      const { records } = await stored(again, ['notes', 'searchIndex']);
      const after = records['notes']?.length ?? 0;
      if (after !== before) return `${after} of ${before} notes are there`;
      saved = textsOf(records['searchIndex']).some((text) => text.includes(word));
      await again.goto(`${url}#/find?q=${word}`);
      const found = again.getByText(new RegExp(`^${batch} results among`));
      const seen = await found.waitFor({ timeout: 30_000 }).then(
        () => true,
        () => false,
      );
      return seen ? undefined : `Find does not find the ${batch} notes with ${word}`;
    },
  };
};

/** Backs everything up into the granted folder: the browser's private one, which asks nobody. */
const backingUp: Work = async (page, url) => {
  await putRecords(page, 'notes', notesOf('moored', 'A reef.', 1));
  await page.reload();
  await page.goto(`${url}#/safekeeping`);
  const again = page.getByRole('button', { name: /^Back up into/ });
  const choose = page.getByRole('button', { name: 'Choose a folder for backups…' });
  await again.or(choose).first().waitFor();
  if (await choose.isVisible()) {
    await choose.click();
    await again.waitFor();
    await page.locator('.state').filter({ hasText: 'into the folder' }).waitFor();
  }
  const notes = await counted(page, 'notes');
  const done = acknowledgedBy(page, /has a new backup/);
  await again.click();
  return {
    withinMs: 900,
    acknowledged: () => (done() ? 1 : 0),
    underWay: () => !done(),
    check: async (after) => {
      const files = await filesInPrivateFolder(after);
      if (files.length === 0) return 'the folder is empty';
      for (const { name, bytes } of files) {
        const reading = await readBackup(bytes, (of) =>
          Promise.resolve(createHash('sha256').update(of).digest('hex')),
        );
        if (reading.kind === 'fault') return `${name} is no backup: ${reading.message}`;
        if (reading.faults.length > 0) return `${name} is damaged: ${reading.faults[0]?.place}`;
      }
      const last = files.at(-1);
      const reading = last && (await readBackup(last.bytes, () => Promise.resolve('')));
      const held = reading?.kind === 'read' ? (reading.records.notes?.length ?? 0) : 0;
      return held === notes ? undefined : `${held} of ${notes} notes are in ${last?.name}`;
    },
  };
};

export const works = {
  logging,
  importing,
  'bringing a backup in': bringingIn,
  indexing,
  'backing up': backingUp,
} satisfies Record<string, Work>;

async function counted(page: Page, store: string): Promise<number> {
  return (await stored(page, [store])).records[store]?.length ?? 0;
}

/** Whether a text has been shown so far. */
function acknowledgedBy(page: Page, text: RegExp): () => boolean {
  let seen = false;
  page
    .getByText(text)
    .first()
    .waitFor({ timeout: 60_000 })
    .then(() => (seen = true))
    .catch(() => undefined); // the browser was killed first
  return () => seen;
}

function tableOf(round: number): string {
  const day = new Date(Date.UTC(2020, 0, 1 + round)).toISOString().slice(0, 10);
  const rows = Array.from({ length: batch }, (_, i) => {
    const [block, item] = [Math.floor(i / 40) + 1, (i % 40) + 1];
    return `${day},${round}-${block},${item},${i % 3 === 0 ? 'wrong' : 'correct'}`;
  });
  return `Date,Block,Item,Result\r\n${rows.join('\r\n')}\r\n`;
}

function notesOf(name: string, text: string, change: number) {
  return Array.from({ length: batch }, (_, i) => ({
    id: `${name}-${i}`,
    title: `Note ${i}`,
    text: `${text} `.repeat(40),
    concepts: [],
    disciplines: [],
    systems: [],
    stamp: {
      origin: 'quay',
      revision: { quay: change },
      changedAt: 1_770_000_000_000 + change,
      deleted: false,
    },
  }));
}

function backupOfNotes(name: string, text: string): BackupContent {
  const records = { notes: notesOf(name, text, 1) };
  const content = { madeAt: 1_770_000_000_000, device: 'quay', records, pictures: [] };
  return content as unknown as BackupContent;
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** The texts of the saved parts of Find's index. */
function textsOf(parts: readonly object[] | undefined): readonly string[] {
  return ((parts as readonly { readonly content: SavedPart }[] | undefined) ?? []).map(
    ({ content }) => Buffer.from(content.texts).toString(),
  );
}
