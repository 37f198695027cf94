import { mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildIsCurrent, ensureBuilt, sourceHash } from '../../../src/serve/ensure-built.mjs';

let root = '';
const write = (file: string, text: string): void => {
  mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
  writeFileSync(path.join(root, file), text);
};
/** Stands in for the bundler: writes one page that says what mode it was built for, or fails. */
const writeBundler = (body: string): void => {
  write(
    'node_modules/vite/bin/vite.js',
    `const { mkdirSync, writeFileSync } = require('node:fs');
const out = process.argv[process.argv.indexOf('--outDir') + 1];
mkdirSync(out, { recursive: true });
${body}`,
  );
};

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'hypocentre-built-'));
  write('index.html', '<p>page</p>');
  write('src/app/main.ts', 'start();');
  write('seed-data/map.json', '[]');
  writeBundler(`writeFileSync(out + '/index.html', process.env.NODE_ENV);`);
});
afterEach(() => {
  rmSync(root, { recursive: true });
});

describe('the hash of the sources', () => {
  it('follows contents and names, in every folder the build is made from', () => {
    const seen = new Set([sourceHash(root)]);
    write('src/app/main.ts', 'start(1);');
    seen.add(sourceHash(root));
    write('src/app/more.ts', '');
    seen.add(sourceHash(root));
    write('seed-data/map.json', '[1]');
    seen.add(sourceHash(root));
    write('vite.config.ts', '');
    seen.add(sourceHash(root));
    expect(seen.size).toBe(5);
  });

  it('does not follow dates, nor the server, which is no part of the build', () => {
    const before = sourceHash(root);
    utimesSync(path.join(root, 'src/app/main.ts'), 1, 1);
    write('src/serve/start.mjs', 'changed');
    expect(sourceHash(root)).toBe(before);
  });
});

describe('building when needed', () => {
  it('builds once, for production, and again only after a change', async () => {
    const said: string[] = [];
    const build = () => ensureBuilt(root, (line) => said.push(line));
    expect(buildIsCurrent(root)).toBe(false);
    expect((await build()).kind).toBe('built');
    expect((await build()).kind).toBe('current');
    write('src/app/main.ts', 'start(2);');
    expect((await build()).kind).toBe('built');
    expect(said).toEqual(['Building the app…', 'Building the app…']);
  });

  it('leaves the earlier build in place when a build fails, and passes on the reason', async () => {
    await ensureBuilt(root, () => undefined);
    expect(readFileSync(path.join(root, 'dist/index.html'), 'utf8')).toBe('production');
    write('src/app/main.ts', 'start(');
    writeBundler(`console.error('main.ts: no closing bracket'); process.exit(3);`);
    const result = await ensureBuilt(root, () => undefined);
    expect(result).toMatchObject({ kind: 'failed' });
    expect(result.kind === 'failed' && result.message).toContain('no closing bracket');
    expect(readFileSync(path.join(root, 'dist/index.html'), 'utf8')).toBe('production');
    expect(buildIsCurrent(root)).toBe(false);
  });
});
