// Installs the packages when, and only when, they are missing or are not those of the lock file.
// Shared by `npm start` and `npm test`.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { cacheFolder, findJson, hashOf, writeJson } from './project.mjs';

/**
 * @typedef {{ optional?: boolean, extraneous?: boolean, link?: boolean, version?: string, os?: string[], cpu?: string[], libc?: string[] }} LockEntry
 * @typedef {{ packages?: Record<string, LockEntry> }} LockFile
 * @typedef {{ kind: 'present' } | { kind: 'installed' } | { kind: 'failed', message: string }} InstallResult
 */

/**
 * Says whether what npm recorded in node_modules is what the lock file asks for.
 *
 * Optional entries count only where they are meant for this system and name no C library: npm
 * leaves the others out, and which C library is in use is not worth finding out here.
 *
 * @param {LockFile | undefined} wanted package-lock.json
 * @param {LockFile | undefined} found node_modules/.package-lock.json
 * @param {{ platform: string, arch: string }} system as in `process`
 */
export function installedMatchesLock(wanted, found, system) {
  if (!wanted?.packages || !found?.packages) return false;
  for (const [place, entry] of Object.entries(wanted.packages)) {
    // The project itself, and what a lock file still lists though nothing asks for it any more.
    if (place === '' || entry.extraneous) continue;
    if (entry.optional && !isMeantFor(entry, system)) continue;
    if (found.packages[place]?.version !== entry.version) return false;
  }
  return true;
}

/**
 * @param {LockEntry} entry
 * @param {{ platform: string, arch: string }} system
 */
function isMeantFor(entry, system) {
  if (!entry.os || !entry.cpu || entry.libc) return false;
  return entry.os.includes(system.platform) && entry.cpu.includes(system.arch);
}

/**
 * Says whether the packages of the lock file are there already.
 *
 * A marker makes the second look cheap: it holds the hash of the lock file last found installed,
 * and the system it was installed for (a folder copied to another system is installed anew).
 *
 * @param {string} root project folder
 */
export function isInstalled(root) {
  const record = path.join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(record)) return false;
  const wanted = currentMarker(root);
  const marker = findJson(markerFile(root));
  if (marker?.lockHash === wanted.lockHash && marker.system === wanted.system) return true;
  // Installed by hand: npm's own record says so, and the marker is written for next time.
  const matches = installedMatchesLock(
    findJson(path.join(root, 'package-lock.json')),
    findJson(record),
    process,
  );
  if (matches) writeJson(markerFile(root), wanted);
  return matches;
}

/**
 * Installs the packages if they are missing, and says what it did.
 *
 * Install scripts of packages are not run; none is needed.
 *
 * @param {string} root project folder
 * @param {(line: string) => void} say called before a slow step
 * @returns {Promise<InstallResult>} `failed` with sentences for the person at the terminal
 */
export async function ensureInstalled(root, say) {
  if (isInstalled(root)) return { kind: 'present' };
  say('Installing the packages this project is built from (once, about 15 seconds to a minute)…');
  const exitCode = await runNpm(
    // NODE_ENV=production or omit=dev in the person's own settings would leave out the build tools.
    ['ci', '--ignore-scripts', '--include=dev', '--prefer-offline', '--no-audit', '--no-fund'],
    root,
  );
  if (exitCode !== 0) return { kind: 'failed', message: installFailure(exitCode) };
  writeJson(markerFile(root), currentMarker(root));
  return { kind: 'installed' };
}

/** @param {number | string} exitCode */
function installFailure(exitCode) {
  return [
    `The packages could not be installed (npm ended with ${String(exitCode)}; its own words are above).`,
    'The first start needs the network once. Without it: connect, or copy the node_modules folder',
    'of the same version from a machine of the same kind, and try again.',
  ].join('\n');
}

/** @param {string} root */
function markerFile(root) {
  return path.join(cacheFolder(root), 'installed.json');
}

/** @param {string} root */
function currentMarker(root) {
  return {
    lockHash: hashOf(readFileSync(path.join(root, 'package-lock.json'))),
    system: `${process.platform}-${process.arch}`,
  };
}

/**
 * Runs npm, its output on this terminal.
 *
 * @param {string[]} args
 * @param {string} root
 * @returns {Promise<number | string>} the exit code, or why it could not be started
 */
function runNpm(args, root) {
  // Under `npm start` this is npm's own script: the same npm, and no shell is needed on Windows.
  const script = process.env['npm_execpath'];
  const child = script?.endsWith('npm-cli.js')
    ? spawn(process.execPath, [script, ...args], { cwd: root, stdio: 'inherit' })
    : spawn('npm', args, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' });
  return new Promise((resolve) => {
    child.once('error', (error) => resolve(error.message));
    child.once('exit', (code, signal) => resolve(code ?? String(signal)));
  });
}
