import { randomBytes } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { firstScreenReport, firstScreenScripts } from '../../checks/first-screen-size.mjs';

const manifest = {
  'index.html': {
    file: 'assets/index.js',
    isEntry: true,
    imports: ['_shared.js'],
    dynamicImports: ['map.ts'],
  },
  '_shared.js': { file: 'assets/shared.js', imports: ['_deep.js'] },
  '_deep.js': { file: 'assets/deep.js', imports: ['_shared.js'] },
  'map.ts': { file: 'assets/map.js', imports: ['_deep.js', '_onlymap.js'] },
  '_onlymap.js': { file: 'assets/onlymap.js' },
};

describe('the scripts of the first screen', () => {
  it('are the entry and what it imports at any remove, round a cycle too', () => {
    expect(firstScreenScripts(manifest)).toEqual([
      'assets/deep.js',
      'assets/index.js',
      'assets/shared.js',
    ]);
  });

  it('count only once when two entries share them', () => {
    const two = {
      ...manifest,
      other: { file: 'assets/o.js', isEntry: true, imports: ['_deep.js'] },
    };
    expect(firstScreenScripts(two).filter((file) => file === 'assets/deep.js')).toHaveLength(1);
  });

  it('cannot be weighed when the manifest names a script it does not list', () => {
    const broken = { a: { file: 'a.js', isEntry: true, imports: ['gone'] } };
    expect(() => firstScreenScripts(broken)).toThrow(/gone/);
  });
});

describe('the budget', () => {
  let dist = '';
  const writeBuild = (firstBytes: number, laterBytes: number): void => {
    mkdirSync(path.join(dist, '.vite'));
    mkdirSync(path.join(dist, 'assets'));
    // Random bytes do not shrink, so their number is their gzipped size but for a few.
    writeFileSync(path.join(dist, 'assets/index.js'), randomBytes(firstBytes));
    writeFileSync(path.join(dist, 'assets/later.js'), randomBytes(laterBytes));
    writeFileSync(
      path.join(dist, '.vite/manifest.json'),
      JSON.stringify({
        'index.html': { file: 'assets/index.js', isEntry: true, dynamicImports: ['l'] },
        l: { file: 'assets/later.js' },
      }),
    );
  };
  beforeEach(() => {
    dist = mkdtempSync(path.join(tmpdir(), 'hypocentre-size-'));
  });
  afterEach(() => {
    rmSync(dist, { recursive: true });
  });

  it('holds for 59 kB, whatever is loaded on demand', () => {
    writeBuild(59_000, 200_000);
    const { withinBudget, lines } = firstScreenReport(dist);
    expect(withinBudget).toBe(true);
    expect(lines.join('\n')).toMatch(/59\.\d kB gz {2}first-screen scripts together/);
    expect(lines.join('\n')).toMatch(/200\.\d kB gz {2}in 1 scripts loaded on demand/);
  });

  it('is broken by 61 kB', () => {
    writeBuild(61_000, 0);
    expect(firstScreenReport(dist).withinBudget).toBe(false);
  });

  it('is not called kept where nothing was weighed', () => {
    expect(() => firstScreenReport(dist)).toThrow(/ENOENT/);
  });
});
