/** From a reviewed miss to a line of the recall sheet or a note, in one step. */
import type { Item } from '../model/log';
import { newLine, newNote } from './new-study';
import type { Draft, Workspace } from './workspace.svelte';

/** Longest title of a note, in characters. */
const longestTitle = 200;

/** What a line or note of a miss is about: its named causes, else its topics. */
const aboutOf = ({ causes, topics }: Item) => (causes.length > 0 ? causes : topics);

/** A line of the recall sheet that says the missing piece; it was needed once, for this item. */
export function lineFromMiss(workspace: Workspace, item: Item): Draft<'lines'> {
  const line = newLine(workspace.makeId(), item.missingPiece.trim(), aboutOf(item));
  return { ...line, timesNeeded: 1 };
}

/**
 * A note that begins with the missing piece and the option turns; its pictures go with it.
 *
 * @param title for a miss without a missing piece ("Item 7 of 12 Mar 2026")
 */
export function noteFromMiss(workspace: Workspace, item: Item, title: string): Draft<'notes'> {
  const piece = item.missingPiece.trim();
  const turns = item.optionTurns
    .filter(({ option, turn }) => option.trim() !== '' || turn.trim() !== '')
    .map(({ option, turn }) => `- ${[option.trim(), turn.trim()].filter(Boolean).join(': ')}`);
  const text = [piece, turns.join('\n')].filter((part) => part !== '').join('\n\n');
  const name = piece === '' ? title : piece.replace(/\s+/g, ' ');
  const note = newNote(workspace.makeId(), name.slice(0, longestTitle), text, aboutOf(item));
  return {
    ...note,
    systems: item.system ? [item.system] : [],
    ...(item.pictures && item.pictures.length > 0 ? { pictures: item.pictures } : {}),
  };
}
