// Where this copy of the project lies, and its own small cache.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project folder: the one that holds package.json. */
export const PROJECT_ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');

/**
 * The folder for things that can be made again: install and build markers, the unpacked browser.
 * Inside node_modules, so that removing node_modules forgets them too.
 *
 * @param {string} root project folder
 */
export function cacheFolder(root) {
  return path.join(root, 'node_modules', '.cache', 'hypocentre');
}

/**
 * Returns a parsed JSON file, or undefined when it is missing or is not JSON (a half-written
 * marker counts as no marker).
 *
 * @param {string} file
 * @returns {any}
 */
export function findJson(file) {
  if (!existsSync(file)) return undefined;
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

/**
 * Writes a JSON file whole or not at all: a reader never sees half of it.
 *
 * @param {string} file
 * @param {unknown} value
 */
export function writeJson(file, value) {
  mkdirSync(path.dirname(file), { recursive: true });
  const partial = `${file}.${String(process.pid)}`;
  writeFileSync(partial, `${JSON.stringify(value, null, 2)}\n`);
  renameSync(partial, file);
}

/**
 * Returns the SHA-256 of some text or bytes, in hexadecimal.
 *
 * @param {string | Uint8Array} content
 */
export function hashOf(content) {
  return createHash('sha256').update(content).digest('hex');
}

/**
 * Returns the version in package.json.
 *
 * @param {string} root project folder
 * @returns {string}
 */
export function projectVersion(root) {
  return String(findJson(path.join(root, 'package.json'))?.version ?? 'unknown');
}
