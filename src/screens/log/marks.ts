/** What an item of a block can be marked as; all others were right. */
export type Mark = 'missed' | 'guessed-right';

export const markWords: Readonly<Record<Mark, string>> = {
  missed: 'missed',
  'guessed-right': 'guessed right',
};
