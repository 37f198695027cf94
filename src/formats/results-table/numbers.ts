/** Numbers and lengths of time as people and spreadsheets write them. */

/**
 * The whole number in a cell, with or without a word or sign before it.
 *
 * @example
 * findWholeNumber('Q12'); // 12
 * findWholeNumber('12 of 40'); // 12
 */
export function findWholeNumber(cell: string): number | undefined {
  const match =
    /^(?:[a-z]{1,8}\.? ?|[#№] ?)?(\d{1,9})(?:[.,]0+|\.|\))?(?: ?(?:\/|of) ?\d{1,9})?$/i.exec(
      cell.trim(),
    );
  return match ? Number(match[1]) : undefined;
}

/** A number that is not negative, with a decimal point or comma and perhaps a unit after it. */
function findNumber(text: string, unit: RegExp): number | undefined {
  const match = /^(\d{1,7}(?:[.,]\d{1,6})?) ?([a-z.]*)$/i.exec(text);
  if (!match || !unit.test(match[2] ?? '')) return undefined;
  return Number((match[1] ?? '').replace(',', '.'));
}

/**
 * Seconds from "75", "75 s", "1:15", "0:01:15", "1 min 15 s"; undefined for anything else.
 *
 * @param plainUnit what a bare number counts, as the header says
 *
 * @example
 * findSeconds('1:15'); // 75
 * findSeconds('1.5', 'minutes'); // 90
 */
export function findSeconds(
  cell: string,
  plainUnit: 'seconds' | 'minutes' = 'seconds',
): number | undefined {
  const text = cell.trim().toLowerCase();
  const clock = /^(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)(?:[.,]\d+)?$/.exec(text);
  if (clock) return Number(clock[1] ?? 0) * 3_600 + Number(clock[2]) * 60 + Number(clock[3]);
  const worded =
    /^(?:(\d+) ?h(?:ours?|rs?)?\.? ?)?(?:(\d+) ?m(?:in(?:ute)?s?)?\.? ?)?(?:(\d+) ?s(?:ec(?:ond)?s?)?\.?)?$/.exec(
      text,
    );
  if (worded && text !== '') {
    return Number(worded[1] ?? 0) * 3_600 + Number(worded[2] ?? 0) * 60 + Number(worded[3] ?? 0);
  }
  const plain = findNumber(text, /^(s|sec|secs|seconds)?\.?$/);
  if (plain !== undefined && /[a-z]/.test(text)) return plain;
  if (plain !== undefined) return plainUnit === 'minutes' ? plain * 60 : plain;
  const minutes = findNumber(text, /^(m|min|mins|minutes)\.?$/);
  return minutes === undefined ? undefined : minutes * 60;
}

/**
 * Minutes of a block from "60", "58.5", "60 min", "58:30", "1:05:00".
 *
 * "a:b" is minutes and seconds, as a block lasts minutes; hours take two colons or a word.
 */
export function findMinutes(cell: string): number | undefined {
  const text = cell.trim().toLowerCase();
  const plain = findNumber(text, /^(m|min|mins|minutes)?\.?$/);
  if (plain !== undefined) return plain;
  const seconds = findSeconds(text);
  return seconds === undefined ? undefined : seconds / 60;
}
