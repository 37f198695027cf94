/** What Find shows, as its address names it. */
import { parseQuery, searchKinds, type Filters, type SearchKind } from '../../state/find.svelte';
import { msPerDay } from '../../model/time';
import { texts } from './texts';

export const kindWords: Readonly<Record<SearchKind, string>> = {
  concepts: texts.findAddress.concepts,
  items: texts.findAddress.misses,
  notes: texts.findAddress.notes,
  readings: texts.findAddress.readings,
  lines: texts.findAddress.recallSheetLines,
};

/** Whole local days of a date as a date field writes it; undefined for none or a wrong one. */
function dayOf(text: string | null): number | undefined {
  const at = text ? Date.parse(`${text}T00:00:00Z`) : NaN;
  return Number.isNaN(at) ? undefined : at / msPerDay;
}

export function filtersOf(query: URLSearchParams): Filters {
  const kind = searchKinds.find((one) => one === query.get('kind'));
  const settled = query.get('settled');
  return {
    kinds: kind && [kind],
    system: query.get('system') ?? undefined,
    discipline: query.get('discipline') ?? undefined,
    fromDay: dayOf(query.get('from')),
    toDay: dayOf(query.get('to')),
    settled: settled === 'yes' ? true : settled === 'no' ? false : undefined,
  };
}

/** The address with one thing changed; an empty value takes it out. */
export function addressWith(query: URLSearchParams, name: string, value: string): string {
  const next = new URLSearchParams(query);
  if (value === '') next.delete(name);
  else next.set(name, value);
  const text = next.toString();
  return text === '' ? '/find' : `/find?${text}`;
}

/** The kinds in a sentence, where there are so many of them. */
export const countWords: Readonly<Record<SearchKind, readonly [one: string, many: string]>> = {
  concepts: [texts.findAddress.concept, texts.findAddress.conceptsWord],
  items: [texts.findAddress.miss, texts.findAddress.missesWord],
  notes: [texts.findAddress.note, texts.findAddress.notesWord],
  readings: [texts.findAddress.reading, texts.findAddress.readingsWord],
  lines: [texts.findAddress.sheetLine, texts.findAddress.sheetLines],
};

/** What the fields beside the find box show of a typed question. */
export function partsOf(typed: string): { readonly phrase: string; readonly without: string } {
  const { phrases, without } = parseQuery(typed);
  return { phrase: phrases.join(', '), without: without.join(', ') };
}

/**
 * The question with its phrases and what it leaves out as the fields have them, several with
 * commas between, in the forms that can be typed.
 *
 * @example
 * typedWith('shift "left"', { phrase: 'left shift', without: 'fetal' });
 * // 'shift "left shift" -fetal'
 */
export function typedWith(
  typed: string,
  fields: { readonly phrase: string; readonly without: string },
): string {
  const list = (text: string) =>
    text
      .replace(/["“”„]/g, '')
      .split(',')
      .map((one) => one.trim())
      .filter((one) => one !== '');
  const quoted = (text: string) => `"${text}"`;
  return [
    ...parseQuery(typed).words,
    ...list(fields.phrase).map(quoted),
    ...list(fields.without).map((text) => `-${/\s/.test(text) ? quoted(text) : text}`),
  ].join(' ');
}
