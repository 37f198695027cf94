/** The words by which a table gives the reason of a miss. */
import { foldName } from '../../model/fold-name';
import { missReasons, reasonWords, type MissReason } from '../../model/log';

/** Beside the words of the screens (common practice, no source). */
const wordings: Readonly<Record<MissReason, string>> = {
  'not-known':
    "unknown; didn't know; did not know; never learned; never learnt; knowledge; knowledge gap; gap in knowledge; lack of knowledge; no idea; new to me; content; content gap",
  'not-recalled':
    "forgot; forgotten; could not recall; couldn't recall; couldn't remember; could not remember; memory; recall; blanked",
  misread:
    'misread question; misread the question; misread the stem; misread stem; misreading; misunderstood question; misunderstood the question; reading error; overlooked; careless reading',
  'two-left':
    'two left; two left, chose wrong; between two; stuck between two; down to two; narrowed to two; 50/50; 50-50; fifty-fifty; wrong of two; last two',
  'changed-from-right':
    'changed; changed answer; changed my answer; changed right to wrong; changed from right to wrong; changed correct answer; switched; switched from right; second-guessed',
  'out-of-time':
    'out of time; no time; time; timing; time pressure; rushed; ran out; too slow; not reached',
  overthought: 'overthinking; overthink; thought too much; read too much into it; overcomplicated',
};

const byWord: ReadonlyMap<string, MissReason> = new Map(
  missReasons.flatMap((reason) =>
    [reason, reasonWords[reason], ...wordings[reason].split('; ')].map(
      (word) => [foldName(word), reason] as const,
    ),
  ),
);

/**
 * The reason that a cell names, or undefined.
 *
 * @example
 * findReason('Ran out of time'); // "out-of-time"
 */
export function findReason(cell: string): MissReason | undefined {
  return byWord.get(foldName(cell));
}
