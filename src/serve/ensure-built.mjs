// Builds the app when, and only when, what it is built from has changed.
// Shared by `npm start`, `npm test` and the set-up of the browser tests.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { cacheFolder, findJson, writeJson } from './project.mjs';

/** What a build is made from, beside the folders below. */
const SOURCE_FILES = [
  'index.html',
  'package.json',
  'package-lock.json',
  'svelte.config.js',
  'tsconfig.json',
  'vite.config.ts',
];
const SOURCE_FOLDERS = ['src', 'seed-data'];

/** Inside the build, so that a build and its marker cannot part. Dot files are never served. */
const MARKER = '.build.json';

/** @typedef {{ kind: 'current' } | { kind: 'built' } | { kind: 'failed', message: string }} BuildResult */

/**
 * Returns one hash over the names and contents of everything the build is made from.
 *
 * Contents and not dates: a fresh clone or a switched branch gives every file a new date.
 * `src/serve` is left out, since it serves the build and is no part of it.
 *
 * @param {string} root project folder
 */
export function sourceHash(root) {
  const hash = createHash('sha256');
  const files = [
    ...SOURCE_FILES,
    ...SOURCE_FOLDERS.flatMap((folder) => filesUnder(root, folder)).sort(),
  ];
  for (const file of files) {
    const full = path.join(root, file);
    if (!existsSync(full)) continue;
    hash.update(`${file}\0`).update(readFileSync(full)).update('\0');
  }
  return hash.digest('hex');
}

/**
 * @param {string} root
 * @param {string} folder relative to root, with forward slashes
 * @returns {string[]} relative to root, with forward slashes, so that every system hashes alike
 */
function filesUnder(root, folder) {
  if (!existsSync(path.join(root, folder))) return [];
  return readdirSync(path.join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const inside = `${folder}/${entry.name}`;
    if (inside === 'src/serve') return [];
    return entry.isDirectory() ? filesUnder(root, inside) : [inside];
  });
}

/**
 * Says whether the build in `dist` was made from the sources as they are now.
 *
 * @param {string} root project folder
 */
export function buildIsCurrent(root) {
  if (!existsSync(path.join(root, 'dist', 'index.html'))) return false;
  return findJson(path.join(root, 'dist', MARKER))?.sourceHash === sourceHash(root);
}

/**
 * Builds the app into `dist` unless the build there is current.
 *
 * The build is made aside and then put in place whole, so a failed or interrupted build leaves
 * the earlier one as it was, and a running server never serves half of one.
 *
 * @param {string} root project folder
 * @param {(line: string) => void} say called before a slow step
 * @returns {Promise<BuildResult>} `failed` with the bundler's own words
 */
export async function ensureBuilt(root, say) {
  if (buildIsCurrent(root)) return { kind: 'current' };
  say('Building the app…');
  const madeFrom = sourceHash(root);
  const aside = path.join(cacheFolder(root), `build-${String(process.pid)}`);
  try {
    const { exitCode, output } = await runVite(root, aside);
    if (exitCode !== 0) return { kind: 'failed', message: `The build failed.\n${output}` };
    writeJson(path.join(aside, MARKER), { sourceHash: madeFrom });
    putInPlace(root, aside);
    return { kind: 'built' };
  } finally {
    rmSync(aside, { recursive: true, force: true });
  }
}

/**
 * Puts a finished build in the place of the former one. Two processes may do so at once (a start
 * beside a test run): the slower finds the place taken again and has another go.
 *
 * @param {string} root
 * @param {string} aside the finished build
 */
function putInPlace(root, aside) {
  const dist = path.join(root, 'dist');
  const former = path.join(cacheFolder(root), `former-${String(process.pid)}`);
  mkdirSync(path.dirname(former), { recursive: true });
  for (let triesLeft = 3; ; triesLeft--) {
    try {
      if (existsSync(dist)) renameSync(dist, former);
      renameSync(aside, dist);
      return;
    } catch (error) {
      if (triesLeft === 0) throw error;
    } finally {
      rmSync(former, { recursive: true, force: true });
    }
  }
}

/**
 * @param {string} root
 * @param {string} outFolder
 * @returns {Promise<{ exitCode: number | string, output: string }>}
 */
function runVite(root, outFolder) {
  const vite = path.join(root, 'node_modules', 'vite', 'bin', 'vite.js');
  const args = ['build', '--manifest', '--emptyOutDir', '--outDir', outFolder];
  const child = spawn(process.execPath, [vite, ...args], {
    cwd: root,
    // Under a test runner NODE_ENV is "test", which would compile the development version.
    env: { ...process.env, NODE_ENV: 'production' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  child.stdout.on('data', (chunk) => (output += String(chunk)));
  child.stderr.on('data', (chunk) => (output += String(chunk)));
  return new Promise((resolve) => {
    child.once('error', (error) => resolve({ exitCode: error.message, output }));
    child.once('close', (code, signal) => resolve({ exitCode: code ?? String(signal), output }));
  });
}
