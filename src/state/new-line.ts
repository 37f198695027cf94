/** A line for the recall sheet out of what it is added from: a miss, a note, a concept. */
import type { LineId } from '../model/ids';
import { newLine } from './new-study';
import type { Draft, Workspace } from './workspace.svelte';

/** Most of a note that is taken over; the rest is for the candidate to choose. */
const mostOfNote = 600;

/**
 * The draft of a line with the text and concepts of its source; a source that is gone gives an
 * empty line.
 */
export function lineFrom(
  workspace: Workspace,
  id: LineId,
  source: { readonly concept?: string; readonly item?: string; readonly note?: string },
): Draft<'lines'> {
  const item = source.item && workspace.of('items').find(source.item);
  if (item) {
    const concepts = item.causes.length > 0 ? item.causes : item.topics;
    return { ...newLine(id, item.missingPiece, concepts), timesNeeded: 1 };
  }
  const note = source.note && workspace.of('notes').find(source.note);
  if (note)
    return { ...newLine(id, note.text.slice(0, mostOfNote), note.concepts), heading: note.title };
  const concept = source.concept && workspace.of('concepts').find(source.concept);
  if (concept)
    return { ...newLine(id, concept.mnemonic ?? '', [concept.id]), heading: concept.name };
  return newLine(id, '', []);
}
