/** Numbers and dates as the candidate's browser writes them. */
import { msPerDay, type LocalDay } from '../model/time';

/**
 * The browser's language, or British English where it names one that Intl does
 * not know ("en-US@posix" in a bare C locale throws a RangeError).
 */
export function usableLocale(language: string): string {
  try {
    return Intl.getCanonicalLocales(language)[0] ?? 'en-GB';
  } catch {
    return 'en-GB';
  }
}

export const locale = usableLocale(typeof navigator === 'undefined' ? 'en-GB' : navigator.language);

const longDay = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeZone: 'UTC' });
const month = new Intl.DateTimeFormat(locale, { month: 'long', year: 'numeric', timeZone: 'UTC' });
const whole = new Intl.NumberFormat(locale, { maximumFractionDigits: 0 });
const oneDigit = new Intl.NumberFormat(locale, {
  minimumFractionDigits: 1,
  maximumFractionDigits: 1,
});
const percent = new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 0 });

/** "12 Mar 2026". A local day is a page of the calendar, so no zone may move it. */
export const dayText = (day: LocalDay) => longDay.format(new Date(day * msPerDay));
/** "March 2026". */
export const monthText = (day: LocalDay) => month.format(new Date(day * msPerDay));
export const wholeText = (value: number) => whole.format(value);
export const oneDigitText = (value: number) => oneDigit.format(value);
/** A share from 0 to 1 as "34 %", and never "0 %" or "100 %" for what is not certain. */
export function shareText(share: number): string {
  if (share > 0 && share < 0.01) return `under ${percent.format(0.01)}`;
  if (share < 1 && share > 0.99) return `over ${percent.format(0.99)}`;
  return percent.format(share);
}
/** The chance of something nobody can be certain of: draws that all agree do not make it 100 %. */
export const chanceText = (chance: number) => shareText(Math.min(Math.max(chance, 1e-4), 1 - 1e-4));
/** "1 item", "1,600 items". */
export const plural = (count: number, word: string, many = `${word}s`) =>
  `${whole.format(count)} ${count === 1 ? word : many}`;
