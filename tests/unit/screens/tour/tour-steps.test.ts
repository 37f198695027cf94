import { describe, expect, it } from 'vitest';
import * as scenario from '../../../../seed-data/demo/scenario';
import { parseTourPlace, tourSteps } from '../../../../src/screens/tour/tour-steps';

describe('the tour of the demo', () => {
  it('has five steps on five screens, from accuracy to the root that was planted first', () => {
    expect(tourSteps.map(({ path }) => path.split('/')[1])).toEqual([
      'trends',
      'roots',
      'reading',
      'looks',
      'sheet',
    ]);
    expect(tourSteps[1]?.path).toBe(`/roots/${scenario.plantedGaps[0]?.concept ?? ''}`);
  });

  it.each([0, 1, 4, 'left'])('takes up again at the place that was kept: %s', (kept) => {
    expect(parseTourPlace(kept)).toBe(kept);
  });

  it.each([undefined, null, 5, -1, 1.5, NaN, 'not-begun', '2', {}])(
    'begins anew from anything else: %s',
    (kept) => {
      expect(parseTourPlace(kept)).toBe('not-begun');
    },
  );
});
