/** How the columns of a kind of results file were read last time; a kind is known by its header. */
import { resultFields, type ColumnMapping, type ResultField } from '../formats';
import type { DraftChange, Workspace } from './workspace.svelte';

const known: ReadonlySet<string> = new Set(resultFields);

const isField = (text: string): text is ResultField => known.has(text);

/** The mapping kept for a header; undefined where none is kept. */
export function rememberedMapping(
  workspace: Workspace,
  header: readonly string[],
): ColumnMapping | undefined {
  const kept = findKept(workspace, header);
  if (!kept) return undefined;
  // A field of another version of the app is not read, rather than guessed.
  return { fields: header.map((_, column) => asField(kept.fields[column] ?? '')) };
}

/**
 * What keeps a mapping for next time. Nothing, where it is as the app would guess
 * it anyway or as it is kept already.
 */
export function mappingChanges(
  workspace: Workspace,
  fileName: string,
  table: { readonly header: readonly string[]; readonly guessed: ColumnMapping },
  mapping: ColumnMapping,
): DraftChange[] {
  const kept = findKept(workspace, table.header);
  const fields = mapping.fields.map((field) => field ?? '');
  const before = kept ? kept.fields : table.guessed.fields.map((field) => field ?? '');
  if (fields.length === before.length && fields.every((field, i) => field === before[i])) return [];
  const put = {
    id: kept?.id ?? workspace.makeId<'column-mapping'>(),
    name: kept?.name ?? fileName.slice(0, 200),
    headers: [...table.header],
    fields,
  };
  return [{ kind: 'columnMappings', put }];
}

function findKept(workspace: Workspace, header: readonly string[]) {
  return [...workspace.of('columnMappings').live.values()].find(
    ({ headers }) =>
      headers.length === header.length && headers.every((each, i) => each === header[i]),
  );
}

function asField(text: string): ResultField | null {
  return isField(text) ? text : null;
}
