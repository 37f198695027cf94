// Weighs the scripts that must have arrived before the first screen can show.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';

/** Bytes of gzipped script; a goal of this project's own. 1 kB is 1,000 bytes. */
export const FIRST_SCREEN_BUDGET = 60_000;

/** @typedef {{ file: string, isEntry?: boolean, imports?: string[], dynamicImports?: string[] }} ManifestChunk */

/**
 * Returns the script files a page needs before it can run: its entries and all they import
 * statically, at any remove. What is imported on demand is left out.
 *
 * @param {Record<string, ManifestChunk>} manifest as the bundler writes it
 * @returns {string[]} sorted, each once
 */
export function firstScreenScripts(manifest) {
  /** @type {Set<string>} */
  const seen = new Set();
  const waiting = Object.keys(manifest).filter((key) => manifest[key]?.isEntry);
  for (let key = waiting.pop(); key !== undefined; key = waiting.pop()) {
    if (seen.has(key)) continue;
    const chunk = manifest[key];
    if (!chunk) throw new RangeError(`firstScreenScripts: ${key} is imported but not listed`);
    seen.add(key);
    waiting.push(...(chunk.imports ?? []));
  }
  const files = [...seen].map((key) => manifest[key]?.file ?? '');
  return files.filter((file) => file.endsWith('.js')).sort();
}

/**
 * Weighs the first screen of a build against the budget.
 *
 * @param {string} dist the build, with its manifest
 * @returns {{ withinBudget: boolean, lines: string[] }} one line a file, and the sum
 * @throws {Error} when there is no manifest or the page has no script: nothing was weighed then
 */
export function firstScreenReport(dist) {
  const manifest = JSON.parse(readFileSync(path.join(dist, '.vite', 'manifest.json'), 'utf8'));
  const scripts = firstScreenScripts(manifest);
  if (scripts.length === 0) throw new Error(`no first-screen script in the manifest of ${dist}`);
  const sizes = scripts.map((file) => gzippedSize(path.join(dist, file)));
  const sum = sizes.reduce((total, size) => total + size, 0);
  const later = laterScripts(dist, scripts);
  const laterSum = later.reduce((total, file) => total + gzippedSize(file), 0);
  return {
    withinBudget: sum <= FIRST_SCREEN_BUDGET,
    lines: [
      ...scripts.map((file, i) => `${kilobytes(sizes[i] ?? 0)} gz  ${file}`),
      `${kilobytes(sum)} gz  first-screen scripts together; the budget is ${kilobytes(FIRST_SCREEN_BUDGET)}`,
      `${kilobytes(laterSum)} gz  in ${String(later.length)} scripts loaded on demand, workers among them`,
    ],
  };
}

/**
 * @param {string} dist
 * @param {readonly string[]} first
 */
function laterScripts(dist, first) {
  const known = new Set(first.map((file) => path.join(dist, file)));
  return readdirSync(dist, { recursive: true })
    .map((name) => path.join(dist, String(name)))
    .filter((file) => file.endsWith('.js') && !known.has(file) && statSync(file).isFile());
}

/** @param {string} file */
function gzippedSize(file) {
  return gzipSync(readFileSync(file), { level: 9 }).length;
}

/** @param {number} bytes */
function kilobytes(bytes) {
  return `${(bytes / 1000).toFixed(1).padStart(6)} kB`;
}
