/** New notes and sheet lines, as every screen begins them. */
import type { ConceptId, LineId, NoteId } from '../model/ids';
import type { Draft } from './workspace.svelte';

/** @param text what shall stand on the recall sheet */
export function newLine(id: LineId, text: string, concepts: readonly ConceptId[]): Draft<'lines'> {
  return { id, text, concepts: [...concepts], timesNeeded: 0 };
}

/** @param title one line; a note must have one */
export function newNote(
  id: NoteId,
  title: string,
  text: string,
  concepts: readonly ConceptId[],
): Draft<'notes'> {
  return { id, title, text, concepts: [...concepts], disciplines: [], systems: [] };
}
