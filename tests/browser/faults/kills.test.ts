/** A few kills at random moments; `npm run bench -- kills` makes over two hundred. */
import { describe, expect, inject, it } from 'vitest';
import { randomFrom } from '../../../src/engine/numeric/random';
import { makeProfile } from '../harness/open-app';
import { activities, killWhile } from './kills';

describe('the browser killed at a random moment', () => {
  it.each(activities)(
    'leaves every acknowledged save and nothing half done: %s',
    async (activity) => {
      const random = randomFrom(activity.length);
      const report = await killWhile({
        url: inject('appUrl'),
        choice: inject('browserChoice'),
        activity,
        kills: 1,
        random: () => random.uniform(),
        makeProfile,
      });
      expect(report.wrong).toEqual([]);
      if (activity === 'logging') expect(report.acknowledged).toBeGreaterThanOrEqual(1);
    },
  );
});
