/** The values of single cells of a row, or why there are none. */
import { foldName } from '../../model/fold-name';
import type { ConceptId, SystemId } from '../../model/ids';
import type { Outcome } from '../../model/log';
import type { NameMatch } from '../../model/match-topics';
import { valueFault, type CellFault } from './cell-faults';
import { findWholeNumber } from './numbers';
import { findYesNo } from './outcome-words';
import { remembering } from './remembering';
import type { ImportContext } from './plan-types';

const foldOption = (cell: string) =>
  cell
    .trim()
    .replace(/^\(|[.)]$/g, '')
    .toLowerCase();

/** Right when the option chosen is the key; no option chosen is a miss without answer. */
export function outcomeByOptions(
  chosen: string,
  key: string,
): { outcome: Outcome; unanswered: boolean } | CellFault {
  const [mine, right] = [foldOption(chosen), foldOption(key)];
  if (right === '') {
    return {
      reason: 'The row has no key.',
      mend: 'Give the key, or a column that says right or missed.',
    };
  }
  return { outcome: mine === right ? 'right' : 'missed', unanswered: mine === '' };
}

/** The number in the cell, undefined when it is empty, or why it is none. */
export function positionOf(cell: string): number | undefined | CellFault {
  if (cell.trim() === '') return undefined;
  const number = findWholeNumber(cell);
  if (number === undefined) {
    return (
      valueFault(cell) ?? { reason: 'This is not an item number.', mend: 'Write a whole number.' }
    );
  }
  if (number > 0) return number;
  return { reason: 'Item numbers begin at 1.', mend: 'Number the items from 1.' };
}

export function findGuessed(cell: string): boolean | undefined {
  return /^\s*(guess(ed)?|unsure|lucky( guess)?)\s*$/i.test(cell) ? true : findYesNo(cell);
}

export function conceptsIn(names: readonly NameMatch[]): readonly ConceptId[] {
  const [first] = names;
  if (first === undefined) return [];
  if (names.length === 1) return first.kind === 'matched' ? first.concepts : [];
  const found = names.flatMap((name) => (name.kind === 'matched' ? name.concepts : []));
  return [...new Set(found)];
}

export function within(value: number | undefined, most: number): number | undefined {
  return value !== undefined && value <= most ? value : undefined;
}

export function systemFinder(context: ImportContext): (text: string) => SystemId | undefined {
  const byName = new Map<string, SystemId>();
  for (const { id, name, shortName } of [...context.systems].reverse()) {
    if (shortName) byName.set(foldName(shortName), id);
    byName.set(foldName(name), id);
  }
  const without = /system$|tract$/;
  return remembering((text) => {
    const folded = foldName(text);
    return byName.get(folded) ?? byName.get(folded.replace(without, ''));
  });
}
