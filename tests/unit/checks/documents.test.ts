import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { documentFaults, headingAnchors } from '../../checks/documents.mjs';

let root = '';
const write = (file: string, text: string): void => {
  mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
  writeFileSync(path.join(root, file), text);
};
const faultsOf = (text: string): string[] => {
  write('README.md', text);
  return documentFaults(root, ['README.md']);
};

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'hypocentre-documents-'));
  write('package.json', JSON.stringify({ scripts: { build: '' } }));
  write('DEVELOPERS.md', '# Guide\n\n## How to add a store\n');
  write('src/engine/roots/rank.ts', '');
});
afterEach(() => {
  rmSync(root, { recursive: true });
});

describe('checking the documents', () => {
  it('is content with links, headings, files and commands that are there', () => {
    const text = [
      '# Title',
      '[guide](DEVELOPERS.md) and [how](DEVELOPERS.md#how-to-add-a-store), [up](#title)',
      'See `src/engine/roots/rank.ts`, `roots/rank.ts`, `rank.ts` and the folder `src/engine/`.',
      'Run `npm run build`. [Elsewhere](https://example.org/x.md)',
      'Examples: `src/screens/<name>/Page.svelte`, `*.worker.ts`, `dist/index.html`, `.svelte.ts`.',
      '```',
      '[not a link](gone.md) `gone.ts`',
      '```',
    ].join('\n');
    expect(faultsOf(text)).toEqual([]);
  });

  it.each([
    ['[x](gone.md)', 'README.md:1: no file gone.md'],
    ['![x](pictures/gone.png)', 'README.md:1: no file pictures/gone.png'],
    ['<img src="gone.png" alt="">', 'README.md:1: no file gone.png'],
    ['\n[x](DEVELOPERS.md#gone)', 'README.md:2: no heading DEVELOPERS.md#gone'],
    ['[x](../outside.md)', 'README.md:1: ../outside.md leads out of the project'],
    ['`src/engine/gone.ts`', 'README.md:1: no file src/engine/gone.ts'],
    ['`src/gone`', 'README.md:1: no file src/gone'],
    ['`gone.svelte`', 'README.md:1: no file gone.svelte'],
    ['```\nnpm run gone\n```', 'README.md:2: no script gone'],
  ])('reports %s', (text, fault) => {
    expect(faultsOf(text)).toEqual([fault]);
  });

  it('reports a document that is missing', () => {
    expect(documentFaults(root, ['GONE.md'])).toEqual(['GONE.md: missing']);
  });

  it('makes anchors of headings, numbering repeats and ignoring code', () => {
    const text = '# A, b & c\n## A `x` [y](z)\n```\n# no\n```\n## Same\n## Same\n';
    expect([...headingAnchors(text)]).toEqual(['a-b--c', 'a-x-y', 'same', 'same-1']);
  });
});
