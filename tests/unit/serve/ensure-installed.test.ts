import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { installedMatchesLock, isInstalled } from '../../../src/serve/ensure-installed.mjs';

const linux = { platform: 'linux', arch: 'x64' };

describe('comparing npm’s record with the lock file', () => {
  const lock = {
    packages: {
      '': { version: '0.0.1' },
      'node_modules/a': { version: '1.2.3' },
      'node_modules/left-over': { version: '3.1.0', extraneous: true },
      'node_modules/b-linux': { version: '7.0.0', optional: true, os: ['linux'], cpu: ['x64'] },
      'node_modules/b-mac': { version: '7.0.0', optional: true, os: ['darwin'], cpu: ['arm64'] },
      'node_modules/c-musl': {
        version: '4.0.0',
        optional: true,
        os: ['linux'],
        cpu: ['x64'],
        libc: ['musl'],
      },
    },
  };
  const a = { 'node_modules/a': { version: '1.2.3' } };
  const linuxPart = { 'node_modules/b-linux': { version: '7.0.0' } };

  it('is content when every package meant for this system has its version', () => {
    expect(installedMatchesLock(lock, { packages: { ...a, ...linuxPart } }, linux)).toBe(true);
  });

  it('notices another version, a missing package and a folder from another system', () => {
    const other = { ...linuxPart, 'node_modules/a': { version: '1.2.4' } };
    expect(installedMatchesLock(lock, { packages: other }, linux)).toBe(false);
    expect(installedMatchesLock(lock, { packages: linuxPart }, linux)).toBe(false);
    const fromMac = { ...a, 'node_modules/b-mac': { version: '7.0.0' } };
    expect(installedMatchesLock(lock, { packages: fromMac }, linux)).toBe(false);
  });

  it('is not content with no record at all', () => {
    expect(installedMatchesLock(lock, undefined, linux)).toBe(false);
  });
});

describe('knowing whether the packages are there', () => {
  let root = '';
  const write = (file: string, value: unknown): void => {
    mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
    writeFileSync(path.join(root, file), JSON.stringify(value));
  };

  beforeEach(() => {
    root = mkdtempSync(path.join(tmpdir(), 'hypocentre-installed-'));
    write('package-lock.json', { packages: { 'node_modules/a': { version: '1.0.0' } } });
  });
  afterEach(() => {
    rmSync(root, { recursive: true });
  });

  it('says no to a bare clone', () => {
    expect(isInstalled(root)).toBe(false);
  });

  it('accepts what was installed by hand', () => {
    write('node_modules/.package-lock.json', {
      packages: { 'node_modules/a': { version: '1.0.0' } },
    });
    expect(isInstalled(root)).toBe(true);
  });

  it('goes by its marker after that, and no longer once the lock file has changed', () => {
    write('node_modules/.package-lock.json', {
      packages: { 'node_modules/a': { version: '1.0.0' } },
    });
    isInstalled(root);
    // With the marker there, npm's record is not compared again: this difference goes unseen.
    write('node_modules/.package-lock.json', { packages: {} });
    expect(isInstalled(root)).toBe(true);
    write('package-lock.json', { packages: { 'node_modules/a': { version: '1.0.1' } } });
    expect(isInstalled(root)).toBe(false);
  });

  it('does not trust a half-written marker', () => {
    write('node_modules/.package-lock.json', { packages: {} });
    mkdirSync(path.join(root, 'node_modules/.cache/hypocentre'), { recursive: true });
    writeFileSync(path.join(root, 'node_modules/.cache/hypocentre/installed.json'), '{"lockHa');
    expect(isInstalled(root)).toBe(false);
  });
});
