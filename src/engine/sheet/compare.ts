/**
 * What of the sheet was there in a typed rehearsal: an alignment that forgives order and spelling.
 *
 * Each row of a line is aligned with a stretch of the typed words (all of the row, any stretch of
 * the text: a "fitting" alignment by the dynamic programme of S. B. Needleman & C. D. Wunsch 1970,
 * J. Mol. Biol. 48:443-453). The best match is taken first and its words are used up, so that
 * nothing typed once counts twice.
 */
import { sheetWords } from './sheet-words';
import { wordDistance } from './word-distance';

export interface ExpectedLine {
  readonly id: string;
  readonly text: string;
  /** Of a list the parts between commas may come in any order, too. */
  readonly kind?: 'formula' | 'table' | 'list' | 'sketch' | undefined;
}

export interface ComparedLine {
  readonly id: string;
  /** How much of the line was there, 0 to 1. */
  readonly share: number;
  /** Words of the line that were not there, folded. */
  readonly missing: readonly string[];
}

export interface SheetComparison {
  readonly lines: readonly ComparedLine[];
  /** Typed words that belong to no line, in order. */
  readonly beside: readonly string[];
}

/** A word this much like the one expected is that word, misspelt. */
const leastLikeness = 0.7;
/** Words shorter than this must be right: "ace" is not "arc", and no number is nearly right. */
const shortestForgiven = 4;
/** Cost of passing over a typed word inside a match: a match is a stretch, not words strewn about. */
const passingCost = 0.05;

/** Less of a row than this is chance: an equals sign turns up everywhere. */
const leastMatch = 1 / 3;

interface Row {
  readonly line: number;
  readonly words: readonly string[];
}

interface Match {
  readonly row: number;
  readonly score: number;
  /** For each word of the row the typed word it met, or -1. */
  readonly met: readonly number[];
}

/**
 * The share of every line that was typed, in the order given.
 *
 * Grows with rows times typed words times words a row, times the rows that compete for the same
 * words. A line without any word has share 1: there was nothing to forget.
 *
 * @example
 * compareSheet([{ id: 'a', text: 'Cardiac output = rate × volume' }], 'cardac output = rate * volume');
 * // lines: [{ id: 'a', share: 1, missing: [] }]
 */
export function compareSheet(lines: readonly ExpectedLine[], typed: string): SheetComparison {
  const rows = lines.flatMap((line, index) =>
    rowsOf(line).map((words): Row => ({ line: index, words })),
  );
  const text = sheetWords(typed);
  const used = text.map(() => false);
  const like = likeness();

  const settled: (Match | undefined)[] = rows.map(() => undefined);
  let waiting = rows.map((row, index) => fittingMatch(index, row.words, text, used, like));
  while (waiting.length > 0) {
    const best = waiting.reduce((one, other) => (better(other, one, rows) ? other : one));
    if (best.score < leastMatch * rows[best.row]!.words.length) break;
    settled[best.row] = best;
    const taken = new Set(best.met.filter((at) => at >= 0));
    for (const at of taken) used[at] = true;
    waiting = waiting
      .filter(({ row }) => row !== best.row)
      .map((match) =>
        match.met.some((at) => taken.has(at))
          ? fittingMatch(match.row, rows[match.row]!.words, text, used, like)
          : match,
      );
  }

  const compared = lines.map(({ id }, index) => {
    let wordCount = 0;
    const missing: string[] = [];
    rows.forEach((row, r) => {
      if (row.line !== index) return;
      wordCount += row.words.length;
      row.words.forEach((word, w) => {
        if ((settled[r]?.met[w] ?? -1) < 0) missing.push(word);
      });
    });
    return { id, share: wordCount === 0 ? 1 : 1 - missing.length / wordCount, missing };
  });
  return { lines: compared, beside: text.filter((_, at) => !used[at]) };
}

/** A whole match before a part of one, then the longer, then the earlier row. */
function better(one: Match, other: Match, rows: readonly Row[]): boolean {
  const share = (match: Match) => match.score / rows[match.row]!.words.length;
  return share(one) > share(other) || (share(one) === share(other) && one.score > other.score);
}

function rowsOf({ text, kind }: ExpectedLine): string[][] {
  const parts = text.split(kind === 'list' ? /[\n;]|,(?!\d)/ : kind === 'table' ? /[\n|]/ : /\n/);
  return parts.map((part) => sheetWords(part)).filter((words) => words.length > 0);
}

/** Whether two words are the same but for spelling; asked of the same pairs again and again. */
function likeness(): (one: string, other: string) => boolean {
  const known = new Map<string, boolean>();
  return (one, other) => {
    if (one === other) return true;
    const longest = Math.max(one.length, other.length);
    if (Math.min(one.length, other.length) < shortestForgiven || /\d/.test(one + other))
      return false;
    const key = `${one} ${other}`;
    let alike = known.get(key);
    if (alike === undefined) {
      alike = 1 - wordDistance(one, other) / longest >= leastLikeness;
      known.set(key, alike);
    }
    return alike;
  };
}

/** The best fitting alignment of a row with the typed words that are not used up. */
export function fittingMatch(
  row: number,
  words: readonly string[],
  text: readonly string[],
  used: readonly boolean[],
  like: (one: string, other: string) => boolean,
): Match {
  const [n, m] = [words.length, text.length];
  // score[i][j]: best of words 0..i-1 with a stretch that ends before text j; flat, row by row.
  const width = m + 1;
  const score = new Float64Array((n + 1) * width);
  for (let i = 1; i <= n; i++) {
    for (let j = 0; j <= m; j++) {
      let best = score[(i - 1) * width + j]!; // this word of the row is missing
      if (j > 0) {
        const passed = score[i * width + j - 1]! - passingCost;
        if (passed > best) best = passed;
        if (!used[j - 1] && like(words[i - 1]!, text[j - 1]!)) {
          const met = score[(i - 1) * width + j - 1]! + 1;
          if (met > best) best = met;
        }
      }
      score[i * width + j] = best;
    }
  }
  let end = 0;
  for (let j = 1; j <= m; j++) if (score[n * width + j]! > score[n * width + end]!) end = j;

  const met = words.map(() => -1);
  let [i, j] = [n, end];
  while (i > 0) {
    const here = score[i * width + j]!;
    const meets = j > 0 && !used[j - 1] && like(words[i - 1]!, text[j - 1]!);
    if (meets && here === score[(i - 1) * width + j - 1]! + 1) {
      i -= 1;
      j -= 1;
      met[i] = j;
    } else if (here === score[(i - 1) * width + j]!) i -= 1;
    else j -= 1;
  }
  return { row, score: score[n * width + end]!, met };
}
