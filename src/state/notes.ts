/** Notes: saved with older versions kept, brought in from files and given out. */
import { zipSync } from 'fflate';
import { decodeTextFile, noteFiles, readNoteFile, type NoteFileReading } from '../formats';
import type { NoteVersion } from '../model/kept-beside';
import type { Note } from '../model/study';
import { newNote } from './new-study';
import type { CommitResult, DraftChange, Workspace } from './workspace.svelte';

/** A version is kept when the last one is older than this, in ms. */
const stretchMs = 5 * 60_000;
/** A save that takes out so many characters at once keeps what stood there, whenever the last version was. */
const muchTakenOut = 80;
/** Versions kept of each note. */
const mostVersions = 40;

/** Notes that this page has changed since it was loaded: the first change keeps what stood there before. */
const changedHere = new WeakMap<Workspace, Set<string>>();

/** The versions of a note, newest first. */
export function versionsOf(workspace: Workspace, note: string): NoteVersion[] {
  return [...workspace.of('noteVersions').live.values()]
    .filter((version) => version.note === note)
    .sort((a, b) => b.at - a.at);
}

/**
 * Saves title or text. Before the first change since the page was loaded, before the first
 * change of a stretch of editing, and before a long passage goes, the note as it was is kept
 * as a version, in the same step. So what stood there can be had back after any reload.
 */
export async function saveNote(
  workspace: Workspace,
  id: string,
  fields: { readonly title?: string; readonly text?: string },
): Promise<CommitResult> {
  const note = workspace.of('notes').find(id);
  if (!note) return { kind: 'failed', message: 'The note was deleted in the meantime.' };
  const versions = versionsOf(workspace, id);
  const changes: DraftChange[] = [{ kind: 'notes', put: { ...note, ...fields } }];
  if (note.text !== '' && isTurningPoint(workspace, note, fields.text, versions[0])) {
    changes.push(versionChange(workspace, note));
    for (const old of versions.slice(mostVersions - 1)) {
      changes.push({ kind: 'noteVersions', remove: old.id });
    }
  }
  const result = await workspace.commit(`write “${note.title}”`, changes, { typing: true });
  if (result.kind === 'saved') {
    const changed = changedHere.get(workspace) ?? new Set();
    changedHere.set(workspace, changed.add(id));
  }
  return result;
}

function isTurningPoint(
  workspace: Workspace,
  note: Note,
  text: string | undefined,
  last: NoteVersion | undefined,
): boolean {
  if (last?.text === note.text && last.title === note.title) return false; // kept already
  if (text !== undefined && note.text.length - text.length >= muchTakenOut) return true;
  if (!changedHere.get(workspace)?.has(note.id)) return true;
  return last === undefined || workspace.now - last.at >= stretchMs;
}

function versionChange(workspace: Workspace, note: Note): DraftChange {
  const { title, text } = note;
  const id = workspace.makeId<'note-version'>();
  return { kind: 'noteVersions', put: { id, note: note.id, at: workspace.now, title, text } };
}

/** Puts an older version back; the text that stood there is kept as a version itself. */
export function putBack(workspace: Workspace, version: NoteVersion): Promise<CommitResult> {
  const note = workspace.of('notes').find(version.note);
  if (!note) return Promise.resolve({ kind: 'failed', message: 'The note was deleted.' });
  const { title, text } = version;
  return workspace.commit('put an older version back', [
    { kind: 'notes', put: { ...note, title, text } },
    versionChange(workspace, note),
  ]);
}

/**
 * A picture as Markdown writes it in a text.
 *
 * @example
 * pictureLink({ id: '3f', alt: 'a [drawn] loop' }); // "![a \\[drawn\\] loop](#/picture/3f)"
 */
export function pictureLink({ id, alt }: { readonly id: string; readonly alt: string }): string {
  return `![${alt.replace(/[[\]\\]/g, '\\$&')}](#/picture/${id})`;
}

export interface BroughtIn {
  readonly result: CommitResult;
  readonly count: number;
  /** Files that are no notes, with the reason. */
  readonly leftOut: readonly { readonly path: string; readonly why: string }[];
}

async function readFile(file: File, path: string): Promise<NoteFileReading> {
  const decoded = decodeTextFile(new Uint8Array(await file.arrayBuffer()));
  // Whether it is a note at all is told by its name, before what is in it.
  const reading = readNoteFile({ path, text: decoded.kind === 'text' ? decoded.text : '' });
  if (reading.kind === 'left-out' || decoded.kind === 'text') return reading;
  return { kind: 'left-out', path, why: decoded.message };
}

/** Brings files in as notes, in one step that can be undone. Notes that are here already are left out. */
export async function bringInNotes(
  workspace: Workspace,
  files: readonly File[],
): Promise<BroughtIn> {
  const here = new Set(
    Array.from(workspace.of('notes').live.values(), ({ title, text }) => `${title}\n${text}`),
  );
  const changes: DraftChange[] = [];
  const leftOut: { path: string; why: string }[] = [];
  for (const file of files) {
    const path = file.webkitRelativePath || file.name;
    const reading = await readFile(file, path);
    if (reading.kind === 'left-out') leftOut.push({ path, why: reading.why });
    else if (here.has(`${reading.note.title}\n${reading.note.text}`)) {
      leftOut.push({ path, why: 'a note with this title and text is here already' });
    } else {
      const { title, text } = reading.note;
      changes.push({ kind: 'notes', put: newNote(workspace.makeId<'note'>(), title, text, []) });
    }
  }
  const result = await workspace.commit('bring in notes', changes);
  return { result, count: changes.length, leftOut };
}

/** All notes as a ZIP archive of .md files. */
export function notesArchive(workspace: Workspace): Uint8Array {
  const notes = [...workspace.of('notes').live.values()];
  const encoder = new TextEncoder();
  return zipSync(
    Object.fromEntries(noteFiles(notes).map(({ path, text }) => [path, encoder.encode(text)])),
  );
}
