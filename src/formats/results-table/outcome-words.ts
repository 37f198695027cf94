/** The words and marks by which a table says right or missed. */
import { foldName } from '../../model/fold-name';
import type { Outcome } from '../../model/log';

export type OutcomeReading =
  /** Says it by itself. */
  | { readonly kind: 'says'; readonly outcome: Outcome; readonly unanswered?: boolean }
  /** Yes or no: what it says depends on the question in the header. */
  | { readonly kind: 'mark'; readonly mark: 'yes' | 'no' }
  /** A tick or a cross: right or missed by itself, a mark under a header such as "Missed". */
  | { readonly kind: 'tick' | 'cross' }
  | { readonly kind: 'blank' }
  | { readonly kind: 'unknown' };

const wordings: readonly (readonly [OutcomeReading, string])[] = [
  [
    { kind: 'says', outcome: 'right' },
    'right; correct; r; c; ok; okay; pass; passed; right answer; correct answer; answered correctly; got it right; got right; rightly; full mark; had it',
  ],
  [
    { kind: 'says', outcome: 'missed' },
    'wrong; incorrect; missed; miss; w; m; i; fail; failed; error; mistake; wrong answer; incorrect answer; answered incorrectly; got it wrong; not right; not correct; guessed wrong; wrong guess',
  ],
  [
    { kind: 'says', outcome: 'guessed-right' },
    'guessed right; guessed correct; guessed correctly; right guess; right guessed; correct guess; lucky guess; lucky; right by guess; right (guess); right (guessed); correct (guess); correct (guessed); right but guessed; correct but guessed; right but unsure; g',
  ],
  [
    { kind: 'says', outcome: 'missed', unanswered: true },
    'omitted; unanswered; not answered; no answer; skipped; skip; left blank; not attempted; unattempted; timed out; ran out of time; not reached; incomplete',
  ],
  [{ kind: 'mark', mark: 'yes' }, 'yes; y; true; t; on'],
  [{ kind: 'mark', mark: 'no' }, 'no; n; false; f; off'],
  [{ kind: 'cross' }, 'x'],
  [{ kind: 'blank' }, 'n/a; na; none; null; nil'],
];

const byWord: ReadonlyMap<string, OutcomeReading> = new Map(
  wordings.flatMap(([reading, words]) =>
    words.split('; ').map((word) => [foldName(word), reading] as const),
  ),
);

/**
 * What one cell says about how an item ended.
 *
 * @example
 * readOutcomeWord('Incorrect.'); // { kind: 'says', outcome: 'missed' }
 * readOutcomeWord('yes'); // { kind: 'mark', mark: 'yes' }
 */
export function readOutcomeWord(cell: string): OutcomeReading {
  const text = cell.trim().replace(/\ufe0f/g, '');
  if (/^[-–—.?_*]*$/.test(text)) return { kind: 'blank' };
  if (/^[✓✔☑✅🗸]$/u.test(text)) return { kind: 'tick' };
  if (/^[✗✘✕✖❌×☒]$/u.test(text)) return { kind: 'cross' };
  if (/^1([.,]0+)?$/.test(text)) return { kind: 'mark', mark: 'yes' };
  if (/^0([.,]0+)?$/.test(text)) return { kind: 'mark', mark: 'no' };
  if (/^(100([.,]0+)? ?%|1 ?\/ ?1)$/.test(text)) return { kind: 'says', outcome: 'right' };
  if (/^(0([.,]0+)? ?%|0 ?\/ ?1)$/.test(text)) return { kind: 'says', outcome: 'missed' };
  if (/^[=+@]/.test(text) || text.length > 40) return { kind: 'unknown' };
  return byWord.get(foldName(text)) ?? { kind: 'unknown' };
}

/** Yes or no in a column such as "guessed" or "timed"; undefined for anything else. */
export function findYesNo(cell: string): boolean | undefined {
  const reading = readOutcomeWord(cell);
  if (reading.kind === 'mark') return reading.mark === 'yes';
  if (reading.kind === 'tick' || reading.kind === 'cross') {
    // A lone "x" ticks a box; a ballot cross beside ticks would be a no, but then the ticks say yes.
    return reading.kind === 'tick' || cell.trim().toLowerCase() === 'x';
  }
  return undefined;
}
