import { describe, expect, it } from 'vitest';
import { noteFiles, readNoteFile } from '../../../src/formats';

const titleOf = (path: string, text: string) => {
  const reading = readNoteFile({ path, text });
  return reading.kind === 'note' ? [reading.note.title, reading.note.text] : reading.why;
};

describe('a folder of notes', () => {
  it('takes the title from the first heading, else from the file’s name', () => {
    expect(titleOf('a/b.md', '# Acids\n\nText')).toEqual(['Acids', 'Text']);
    expect(titleOf('a/Bases.md', 'Text\n# later')).toEqual(['Bases', 'Text\n# later']);
    expect(titleOf('x.txt', '# not a heading here')).toEqual(['x', '# not a heading here']);
    expect(titleOf('w.md', '\ufeff# Win\r\n\r\nline\r\n')).toEqual(['Win', 'line\n']);
  });

  it('says why a file is left out', () => {
    expect(titleOf('a.pdf', '')).toContain('.md and .txt');
    expect(titleOf('a.md', 'x'.repeat(200_001))).toContain('cut it in two');
  });

  it('comes back as it went out, each file with a name of its own', () => {
    const notes = [
      { title: 'Na+/K+: why?', text: 'one\n' },
      { title: 'na+ k+ why', text: 'two' },
      { title: 'Na+/K+: why?', text: '' },
      { title: '...', text: 'three' },
    ];
    const files = noteFiles(notes);
    expect(new Set(files.map(({ path }) => path.toLowerCase())).size).toBe(4);
    for (const { path } of files) expect(path).not.toMatch(/[<>:"/\\|?*]/);
    expect(
      files
        .map(readNoteFile)
        .map((r) => r.kind === 'note' && { title: r.note.title, text: r.note.text }),
    ).toEqual(notes);
  });
});
