/** Two versions of one record side by side: only what differs, in words. */
import { canonicalText } from '../../model/merge';
import type { AnyRecord } from '../../model/records';
import { isoDay, type LocalDay } from '../../model/time';
import { texts } from './texts';

export interface DisputeRow {
  readonly field: string;
  readonly shown: string;
  readonly other: string;
}

/** Fields whose names in code are not how a candidate calls them. */
const fieldWords: Readonly<Record<string, string>> = {
  itemCount: texts.disputeRows.items,
  missedCount: texts.disputeRows.misses,
  minutesGiven: texts.disputeRows.minutesGiven,
  minutesUsed: texts.disputeRows.minutesUsed,
  source: texts.disputeRows.whereFrom,
  causes: texts.disputeRows.namedCauses,
  restsOn: texts.disputeRows.restsOn,
  systems: texts.disputeRows.organSystems,
  system: texts.disputeRows.organSystem,
  rest: texts.disputeRows.dayOfRest,
};

/**
 * The fields in which two versions of a record differ.
 *
 * @param nameOf what an id stands for, where it names another record
 */
export function disputeRows(
  shown: AnyRecord,
  other: AnyRecord,
  nameOf: (id: string) => string | undefined,
): DisputeRow[] {
  const [one, two] = [shown, other] as unknown as [Fields, Fields];
  const names = [...new Set([...Object.keys(one), ...Object.keys(two)])];
  return names.flatMap((name) => {
    if (name === 'stamp' || name === 'id') return [];
    const [a, b] = [one[name], two[name]];
    if (canonicalText(a ?? null) === canonicalText(b ?? null)) return [];
    const field = fieldWords[name] ?? spaced(name);
    return [{ field, shown: valueText(name, a, nameOf), other: valueText(name, b, nameOf) }];
  });
}

type Fields = Readonly<Record<string, unknown>>;

function valueText(
  name: string,
  value: unknown,
  nameOf: (id: string) => string | undefined,
): string {
  if (value === undefined || value === null || value === '') return texts.disputeRows.empty;
  if (typeof value === 'boolean') return value ? texts.disputeRows.yes : texts.disputeRows.no;
  if (typeof value === 'number') {
    return /^day$|Day$/.test(name) ? isoDay(value as LocalDay) : String(value);
  }
  if (typeof value === 'string') return nameOf(value) ?? value;
  if (Array.isArray(value)) {
    return value.map((each) => valueText('', each, nameOf)).join('; ') || texts.disputeRows.empty;
  }
  return Object.entries(value)
    .map(([key, held]) => `${spaced(key)}: ${valueText(key, held, nameOf)}`)
    .join(', ');
}

/** "missingPiece" as "missing piece". */
const spaced = (name: string) => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
