import { beforeEach, describe, expect, it } from 'vitest';
import { unzipSync, strFromU8 } from 'fflate';
import {
  bringInNotes,
  notesArchive,
  pictureLink,
  putBack,
  saveNote,
  versionsOf,
} from '../../../src/state/notes';
import { newNote } from '../../../src/state/new-study';
import { Workspace } from '../../../src/state/workspace.svelte';
import { openChangesChannel } from '../../../src/storage';
import { at, countingIds, device, freshIndexedDB, requireStore } from '../storage/harness';

beforeEach(freshIndexedDB);

let clock = 0;
let pages = 0;

/** A page over the same database, as after a reload; `clock` is its seconds. */
async function openPage(): Promise<Workspace> {
  const channel = openChangesChannel(new BroadcastChannel('notes-test'));
  const store = await requireStore({ channel });
  const workspace = new Workspace({
    store,
    channel,
    device,
    makeId: countingIds(`page-${++pages}`),
    now: () => at(clock),
    minutesEast: () => 0,
  });
  await workspace.load();
  return workspace;
}

async function begin(workspace: Workspace, text: string): Promise<void> {
  const put = newNote('n1' as never, 'Title', text, []);
  await workspace.commit('begin', [{ kind: 'notes', put }]);
}

const textOf = (workspace: Workspace) => workspace.of('notes').find('n1')?.text;
const kept = (workspace: Workspace) => versionsOf(workspace, 'n1').map(({ text }) => text);
const write = (workspace: Workspace, text: string) => saveNote(workspace, 'n1', { text });

describe('a note as it was', () => {
  it('is kept before the first change of a stretch, and again after five minutes', async () => {
    clock = 0;
    const page = await openPage();
    await begin(page, 'one');
    for (const [seconds, text] of [
      [10, 'one two'],
      [200, 'one two three'],
      [311, 'one two three four'],
      [320, 'one two three four five'],
    ] as const) {
      clock = seconds;
      await write(page, text);
    }
    expect(kept(page)).toEqual(['one two three', 'one']);
  });

  it('is kept before a long passage goes, however soon', async () => {
    clock = 0;
    const page = await openPage();
    const long = 'A sentence that took a while to write. '.repeat(4);
    await begin(page, 'begun');
    await write(page, long);
    clock = 5;
    await write(page, 'oops');
    expect(kept(page)[0]).toBe(long);
    expect(textOf(page)).toBe('oops');
  });

  it('is had back after a reload, and so is what stood there then', async () => {
    clock = 0;
    const before = await openPage();
    await begin(before, 'one');
    clock = 10;
    await write(before, 'one two');
    clock = 20;
    const after = await openPage();
    await write(after, 'x');
    expect(kept(after)).toEqual(['one two', 'one']);
    await putBack(after, versionsOf(after, 'n1')[0]!);
    expect(textOf(after)).toBe('one two');
    expect(kept(after)).toContain('x');
    // Undo of the step takes back both.
    await after.undo();
    expect(textOf(after)).toBe('x');
    expect(kept(after)).toEqual(['one two', 'one']);
  });

  it('is kept no more than forty times, the oldest going first', async () => {
    clock = 0;
    const page = await openPage();
    await begin(page, 'v0');
    for (let i = 1; i <= 45; i += 1) {
      clock = i * 301;
      await write(page, `v${i}`);
    }
    expect(kept(page)).toHaveLength(40);
    expect(kept(page).at(-1)).toBe('v5');
  });
});

describe('a folder of notes', () => {
  const file = (path: string, content: string | Uint8Array) => {
    const made = new File([content as BlobPart], path.split('/').at(-1)!);
    Object.defineProperty(made, 'webkitRelativePath', { value: path });
    return made;
  };

  it('comes in in one step: headings as titles, any encoding, what is no note named with the reason', async () => {
    const page = await openPage();
    const { count, leftOut } = await bringInNotes(page, [
      file('f/a.md', '# Acids\n\nwords'),
      file('f/sub/b.txt', Uint8Array.of(0x63, 0x61, 0x66, 0xe9)),
      file('f/c.pdf', '%PDF-1.4'),
      file('f/d.md', Uint8Array.of(0x89, 0x50, 0x4e, 0x47)),
    ]);
    expect(count).toBe(2);
    const notes = [...page.of('notes').live.values()].map(({ title, text }) => [title, text]);
    expect(notes.sort()).toEqual([
      ['Acids', 'words'],
      ['b', 'café'],
    ]);
    expect(leftOut.map(({ path }) => path)).toEqual(['f/c.pdf', 'f/d.md']);
    await page.undo();
    expect(page.of('notes').live.size).toBe(0);
  });

  it('goes out and comes back as it was, and not twice', async () => {
    const page = await openPage();
    await bringInNotes(page, [file('x.md', '# One\n\ntext *a*'), file('y.md', '# One\n\nother')]);
    const files = unzipSync(notesArchive(page));
    expect(Object.keys(files).sort()).toEqual(['One 2.md', 'One.md']);
    const again = Object.entries(files).map(([name, bytes]) => file(name, strFromU8(bytes)));
    const { count, leftOut } = await bringInNotes(page, again);
    expect([count, leftOut.length]).toEqual([0, 2]);
  });
});

describe('a picture in a text', () => {
  it('is a Markdown picture whose words cannot end it early', () => {
    expect(pictureLink({ id: '3f', alt: 'plain' })).toBe('![plain](#/picture/3f)');
    expect(pictureLink({ id: '3f', alt: 'a [b] \\ c' })).toBe('![a \\[b\\] \\\\ c](#/picture/3f)');
  });
});
