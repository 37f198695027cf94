/**
 * The steps of each main job from a cold start, counted: a press, a choice, or a field written in is
 * one step. It fails where a job can no longer be walked this way.
 */
import type { Locator, Page } from 'playwright-core';
import type { Bench } from '../bench';
import { serveApp } from './year';

/** Counts what a person does; waiting and looking cost nothing. */
class Walk {
  readonly page: Page;
  steps = 0;

  constructor(page: Page) {
    this.page = page;
  }

  async press(what: Locator): Promise<void> {
    this.steps += 1;
    await what.first().click();
  }

  async write(where: Locator, text: string): Promise<void> {
    this.steps += 1;
    await where.first().fill(text);
  }

  async choose(what: Locator): Promise<void> {
    this.steps += 1;
    await what.first().check();
  }

  link(name: string | RegExp): Locator {
    return this.page.getByRole('link', { name });
  }

  button(name: string | RegExp): Locator {
    return this.page.getByRole('button', { name });
  }

  /** A screen of the rail, or of the bar of a narrow screen. */
  screen(name: string): Promise<void> {
    const rail = this.page.getByRole('navigation', { name: 'Screens' });
    return this.press(rail.getByRole('link', { name }));
  }

  title(name: string): Promise<void> {
    return this.page.getByRole('heading', { level: 1, name }).waitFor();
  }
}

interface Job {
  readonly name: string;
  readonly phone?: boolean;
  readonly run: (walk: Walk) => Promise<void>;
}

const jobs: readonly Job[] = [
  {
    name: 'log a block of forty with three misses and see it among the roots’ items',
    run: async (walk) => {
      await walk.screen('Log');
      await walk.press(walk.button('New block'));
      await walk.write(walk.page.getByLabel('Or type the numbers'), '3, 7, 12');
      await walk.press(walk.button('Mark as missed'));
      await walk.screen('Roots');
      await walk.page.getByText(/^2,440 items, /).waitFor();
    },
  },
  {
    name: 'why is this concept first',
    run: async (walk) => {
      await walk.screen('Roots');
      await walk.press(walk.page.getByRole('list', { name: /^Roots/ }).getByRole('link'));
      await walk.page.getByRole('heading', { name: 'Why is this here?' }).waitFor();
    },
  },
  {
    name: 'what do I read tonight',
    run: async (walk) => {
      await walk.title('Today');
      await walk.page.getByRole('heading', { name: 'Tonight’s reading' }).waitFor();
    },
  },
  {
    name: 'two spare minutes on the phone: one second look',
    phone: true,
    run: async (walk) => {
      await walk.screen('Second look');
      await walk.press(walk.button('I have 2 minutes'));
      await walk.press(walk.button('What did I write?'));
      await walk.press(walk.button('Had it'));
    },
  },
  {
    name: 'find a half-remembered line',
    run: async (walk) => {
      await walk.write(walk.page.getByRole('searchbox'), 'bicarb');
      await walk.page.locator('mark').first().waitFor();
    },
  },
  {
    name: 'write the sheet from memory against the clock',
    run: async (walk) => {
      await walk.screen('Recall sheet');
      await walk.press(walk.page.getByRole('main').getByRole('link', { name: /^Rehears/ }));
      await walk.title('Rehearsal');
      await walk.press(walk.button('Start on paper'));
    },
  },
  {
    name: 'am I on course',
    run: async (walk) => {
      await walk.screen('Trends');
      await walk.page
        .getByText(/mixed block/)
        .first()
        .waitFor();
    },
  },
  {
    name: 'move to another device: the file for it',
    run: async (walk) => {
      await walk.screen('Safekeeping');
      const download = walk.page.waitForEvent('download');
      await walk.press(walk.button('Back up now'));
      await download;
    },
  },
];

const steps: Bench = {
  name: 'whole: steps of each main job',
  repeats: 1,
  warmups: 0,
  prepare: async () => {
    const app = await serveApp();
    const page = await app.openPage();
    await page.getByRole('button', { name: /Look at the demo/ }).click();
    await page.getByRole('list', { name: /^Roots/ }).waitFor();
    return {
      data: `${jobs.length} jobs, each from the app just opened on Today, with the demo loaded`,
      ours: {
        label: 'all of them, by a script',
        run: async () => {
          for (const job of jobs) {
            await page.setViewportSize(
              job.phone ? { width: 390, height: 844 } : { width: 1280, height: 800 },
            );
            await page.goto('about:blank');
            await page.goto(app.url);
            const walk = new Walk(page);
            await walk.title('Today');
            await job.run(walk);
            console.log(`  ${String(walk.steps).padStart(2)} steps: ${job.name}`);
          }
        },
      },
      tidyUp: app.tidyUp,
    };
  },
};

export const benches: readonly Bench[] = [steps];
