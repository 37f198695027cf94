/** The five steps of the demo's tour: where each stands and what to notice there. */
export interface TourStep {
  /** The address of the screen, as the routes name it. */
  readonly path: string;
  /** What the screen is called in the rail. */
  readonly screen: string;
  readonly notice: string;
}

export const tourSteps: readonly TourStep[] = [
  {
    path: '/trends',
    screen: 'Trends',
    notice:
      'Begin where one usually looks: accuracy by organ system. The intervals overlap and no system stands out, so nothing here says what to read tonight.',
  },
  {
    path: '/roots/bicarbonate-buffer',
    screen: 'Roots',
    notice:
      'Now look under the systems. One concept, the bicarbonate buffer, lies under about a quarter of the misses, in kidney, lung, gut and blood alike. The evidence is listed miss by miss.',
  },
  {
    path: '/reading',
    screen: 'Read next',
    notice:
      'What to do about it in the minutes there are: readings that should avoid the most misses. Nobody in the demo has read one on the bicarbonate buffer yet.',
  },
  {
    path: '/looks',
    screen: 'Second look',
    notice:
      'A miss comes back before it fades, mixed over the systems. Say the missing piece to yourself, then uncover it: had it, or not yet.',
  },
  {
    path: '/sheet',
    screen: 'Recall sheet',
    notice:
      'What must be at hand on paper day is written from memory in the first minutes. The sheet keeps the lines that are worth their seconds; the rehearsals show it filling.',
  },
];

/** How far the tour has come: not begun, at a step (from 0), or left. */
export type TourPlace = 'not-begun' | 'left' | number;

/**
 * The place that was remembered, from what the device kept; anything else is the beginning.
 *
 * @example
 * parseTourPlace(3); // 3
 * parseTourPlace('nonsense'); // 'not-begun'
 */
export function parseTourPlace(kept: unknown): TourPlace {
  if (kept === 'left') return 'left';
  const step = typeof kept === 'number' && Number.isInteger(kept) ? tourSteps[kept] : undefined;
  return step ? (kept as number) : 'not-begun';
}
