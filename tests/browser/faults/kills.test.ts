/** A few kills at random moments; `npm run bench -- kills` makes over two hundred. */
import { randomBytes } from 'node:crypto';
import type { Page } from 'playwright-core';
import { describe, expect, inject, it } from 'vitest';
import { randomFrom } from '../../../src/engine/numeric/random';
import { makeProfile, openApp } from '../harness/open-app';
import { activities, killMigrating, killWhile, type KillOptions } from './kills';
import { putRecords, tearDatabase } from './stored';

const random = randomFrom(9);
const options = (kills: number): KillOptions => ({
  url: inject('appUrl'),
  choice: inject('browserChoice'),
  kills,
  random: () => random.uniform(),
  makeProfile,
});

describe('the browser killed at a random moment', () => {
  it('leaves every acknowledged save and nothing half done, whatever it was at', async () => {
    const report = await killWhile(activities, options(activities.length));
    expect(report.wrong).toEqual([]);
    expect(report.acknowledged).toBeGreaterThanOrEqual(1);
  });

  it('is survived by the log even where the browser throws its torn database away, two starts later', async () => {
    const profileFolder = await makeProfile();
    const first = await openApp({ profileFolder });
    await first.page.getByRole('button', { name: /^Begin with an empty map/ }).click();
    await first.page.getByRole('navigation', { name: 'Screens' }).waitFor();
    const write = async (page: Page, text: string) => {
      const field = page.getByLabel('Where from', { exact: true });
      await field.fill(text);
      await field.locator('xpath=..').getByText('saved', { exact: true }).waitFor();
    };
    await first.page.goto(`${inject('appUrl')}#/log`);
    await first.page.getByRole('button', { name: 'New block' }).click();
    await write(first.page, 'before the gale');
    const place = new URL(first.page.url()).hash;
    // One large write, of which the end is then torn off, as by a kill in its middle.
    const content = randomBytes(300_000).toString('base64'); // the browser packs what repeats
    await putRecords(first.page, 'searchIndex', [{ id: 'part', content }]);
    await first.close();
    await tearDatabase(profileFolder, 60_000);

    // It is thrown away at this start or at the next, by where the tear is.
    const said = /The spare copy was there: all \d+ entries are back/;
    const second = await openApp({ profileFolder, place });
    await second.page.getByLabel('Where from', { exact: true }).waitFor();
    const saidAtOnce = await second.page.getByText(said).count();
    await write(second.page, 'in the gale');
    await second.kill();

    const third = await openApp({ profileFolder, place });
    await expect
      .poll(() => third.page.getByLabel('Where from', { exact: true }).inputValue())
      .toBe('in the gale');
    expect(saidAtOnce + (await third.page.getByText(said).count())).toBeGreaterThanOrEqual(1);
  });

  it('leaves a database that was being brought up to date as it was, or up to date', async () => {
    expect((await killMigrating(options(1))).wrong).toEqual([]);
  });
});
