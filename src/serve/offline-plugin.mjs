// Puts the service worker into the build, with the list of all its files.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/**
 * A Vite plugin: writes sw.js once everything else has been written. Its version is the sum of
 * all files, so any change of the build is a new version, and the same build is the same one.
 *
 * @returns {{ name: string, apply: 'build', configResolved(config: { root: string, build: { outDir: string } }): void, closeBundle(): void }}
 */
export function offline() {
  let folder = '';
  return {
    name: 'hypocentre-offline',
    apply: 'build',
    configResolved(config) {
      folder = path.resolve(config.root, config.build.outDir);
    },
    closeBundle() {
      const files = filesIn(folder).filter((file) => file !== 'sw.js' && !file.startsWith('.'));
      const sum = createHash('sha256');
      for (const file of files) sum.update(file).update(readFileSync(path.join(folder, file)));
      const worker = readFileSync(new URL('service-worker.js', import.meta.url), 'utf8');
      const head = [
        `const VERSION = ${JSON.stringify(sum.digest('hex').slice(0, 16))};`,
        `const FILES = ${JSON.stringify(files.map((file) => `./${file}`))};`,
      ].join('\n');
      writeFileSync(path.join(folder, 'sw.js'), `${head}\n${worker}`);
    },
  };
}

/**
 * @param {string} folder
 * @returns {string[]} files below it, with forward slashes, sorted
 */
function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)))
    .map((file) => file.split(path.sep).join('/'))
    .sort();
}
