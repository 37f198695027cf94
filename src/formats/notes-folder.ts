/** A folder of notes in and out: CommonMark files (.md) and plain text (.txt). */
export interface NoteFile {
  /** Path in the folder, with "/" between its steps. */
  readonly path: string;
  readonly text: string;
}

export interface ReadNote {
  readonly title: string;
  readonly text: string;
  readonly path: string;
}

export type NoteFileReading =
  | { readonly kind: 'note'; readonly note: ReadNote }
  | { readonly kind: 'left-out'; readonly path: string; readonly why: string };

const longestText = 200_000;
const longestTitle = 200;

/**
 * A note from a file: its title is the first heading, if the file begins with one,
 * else the file's name.
 *
 * @example
 * readNoteFile({ path: 'a/Acid.md', text: '# Acids\n\nText' }); // title "Acids", text "Text"
 */
export function readNoteFile({ path, text }: NoteFile): NoteFileReading {
  const name = path.split('/').at(-1) ?? path;
  if (!/\.(md|markdown|txt)$/i.test(name)) {
    return { kind: 'left-out', path, why: 'only .md and .txt files are notes' };
  }
  if (text.length > longestText) {
    return {
      kind: 'left-out',
      path,
      why: `it has ${text.length} characters and a note may have ${longestText}; cut it in two`,
    };
  }
  const plain = text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
  const heading = /\.txt$/i.test(name) ? null : /^\s*# +(.+?)(?: +#+)? *(?:\n+|$)/.exec(plain);
  const fileTitle = name.replace(/\.[^.]+$/, '').trim() || 'Untitled';
  const title = (heading?.[1]?.trim() || fileTitle).slice(0, longestTitle);
  return {
    kind: 'note',
    note: { title, text: heading ? plain.slice(heading[0].length) : plain, path },
  };
}

/** One file for each note, with a name of its own that every file system takes. */
export function noteFiles(
  notes: readonly { readonly title: string; readonly text: string }[],
): readonly NoteFile[] {
  const taken = new Set<string>();
  return notes.map(({ title, text }) => {
    const base =
      title
        // eslint-disable-next-line no-control-regex -- file systems refuse them
        .replace(/[\u0000-\u001f<>:"/\\|?*]+/g, ' ')
        .replace(/\s+/g, ' ')
        .replace(/[. ]+$/, '')
        .trim()
        .slice(0, 100) || 'Note';
    let name = base;
    for (let i = 2; taken.has(name.toLowerCase()); i += 1) name = `${base} ${i}`;
    taken.add(name.toLowerCase());
    return { path: `${name}.md`, text: `# ${title}\n\n${text}` };
  });
}
