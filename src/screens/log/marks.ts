import { texts } from './texts';
/** What an item of a block can be marked as; all others were right. */
export type Mark = 'missed' | 'guessed-right';

export const markWords: Readonly<Record<Mark, string>> = {
  missed: texts.marks.missed,
  'guessed-right': texts.marks.guessedRight,
};
