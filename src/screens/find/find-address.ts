/** What Find shows, as its address names it. */
import { searchKinds, type Filters, type SearchKind } from '../../state/find.svelte';
import { msPerDay } from '../../model/time';

export const kindWords: Readonly<Record<SearchKind, string>> = {
  concepts: 'Concepts',
  items: 'Misses',
  notes: 'Notes',
  readings: 'Readings',
  lines: 'Recall sheet lines',
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
