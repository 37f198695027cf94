/** What a search is held to beside its words. */
import type { SearchDocument, SearchKind } from './document';

export interface Filters {
  readonly kinds?: readonly SearchKind[] | undefined;
  readonly system?: string | undefined;
  readonly discipline?: string | undefined;
  /** Whole local days, both included; a document without a day passes neither. */
  readonly fromDay?: number | undefined;
  readonly toDay?: number | undefined;
  /** Misses only: settled, or not yet. */
  readonly settled?: boolean | undefined;
}

export function anyFilter(filters: Filters): boolean {
  return Object.values(filters).some((value) => value !== undefined);
}

/** Whether a document is let through. */
export function passes(document: SearchDocument, filters: Filters): boolean {
  const { kinds, system, discipline, fromDay, toDay, settled } = filters;
  if (kinds !== undefined && !kinds.includes(document.kind)) return false;
  if (system !== undefined && !document.systems.includes(system)) return false;
  if (discipline !== undefined && !document.disciplines.includes(discipline)) return false;
  if (fromDay !== undefined && !(document.day !== undefined && document.day >= fromDay))
    return false;
  if (toDay !== undefined && !(document.day !== undefined && document.day <= toDay)) return false;
  return settled === undefined || document.settled === settled;
}
