// Finds what the documents name and the project does not have: links, headings, files, commands.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** Endings that make a word in code style a file name. */
const FILE_ENDING = /\.(svelte\.ts|ts|mjs|js|svelte|md|json|css|html|csv|svg|png)$/;

/** Not part of the project: made by tools. */
const NOT_OURS = new Set(['node_modules', 'dist', '.git']);

/**
 * Returns one line for every fault: a relative link or picture to nothing, a heading that is not
 * there, a file or folder in code style that does not exist, an `npm run` command that
 * package.json lacks. Names with a placeholder (`<screen>`, `*`, `…`) are examples and not checked.
 *
 * @param {string} root project folder
 * @param {readonly string[]} documents relative to root; each must exist
 * @returns {string[]} such as "README.md:12: no file docs/x.md"
 */
export function documentFaults(root, documents) {
  const files = projectFiles(root, '');
  const known = {
    places: new Set(files.flatMap(withFolders)),
    names: new Set(files.map((file) => path.posix.basename(file))),
    topLevel: new Set(readdirSync(root)),
    scripts: Object.keys(
      JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')).scripts ?? {},
    ),
  };
  return documents.flatMap((document) => {
    const file = path.join(root, document);
    if (!existsSync(file)) return [`${document}: missing`];
    return faultsIn(root, document, readFileSync(file, 'utf8'), known);
  });
}

/**
 * @param {string} root
 * @param {string} document
 * @param {string} text
 * @param {{ places: Set<string>, names: Set<string>, topLevel: Set<string>, scripts: string[] }} known
 * @returns {string[]}
 */
function faultsIn(root, document, text, known) {
  /** @type {string[]} */
  const faults = [];
  let fenced = false;
  for (const [index, line] of text.split('\n').entries()) {
    const report = (/** @type {string} */ what) =>
      faults.push(`${document}:${String(index + 1)}: ${what}`);
    for (const [, script] of line.matchAll(/\bnpm run ([\w:-]+)/g)) {
      if (!known.scripts.includes(script ?? '')) report(`no script ${String(script)}`);
    }
    if (/^\s*(```|~~~)/.test(line)) fenced = !fenced;
    if (fenced) continue;
    for (const target of linkTargets(line)) {
      const fault = linkFault(root, document, target);
      if (fault) report(fault);
    }
    for (const [, code] of line.matchAll(/`([^`]+)`/g)) {
      const name = (code ?? '').trim();
      if (looksLikeFile(name, known.topLevel) && !isThere(name, known)) report(`no file ${name}`);
    }
  }
  return faults;
}

/**
 * @param {string} line
 * @returns {string[]} relative targets of links and pictures
 */
function linkTargets(line) {
  const withoutCode = line.replace(/`[^`]*`/g, '');
  const targets = [
    ...withoutCode.matchAll(/\]\(\s*<?([^)\s>]+)>?[^)]*\)/g),
    ...withoutCode.matchAll(/^\[[^\]]+\]:\s*(\S+)/g),
    ...withoutCode.matchAll(/\b(?:src|srcset|href)="([^"\s]+)/g),
  ].map((match) => match[1] ?? '');
  return targets.filter((target) => !/^[a-z][a-z+.-]*:/i.test(target));
}

/**
 * @param {string} root
 * @param {string} document
 * @param {string} target
 * @returns {string | undefined}
 */
function linkFault(root, document, target) {
  const [place = '', heading] = decodeURIComponent(target).split('#');
  const file = place === '' ? document : path.posix.join(path.posix.dirname(document), place);
  if (file.startsWith('..')) return `${target} leads out of the project`;
  if (!existsSync(path.join(root, file))) return `no file ${target}`;
  if (heading === undefined || !file.endsWith('.md')) return undefined;
  const headings = headingAnchors(readFileSync(path.join(root, file), 'utf8'));
  return headings.has(heading) ? undefined : `no heading ${target}`;
}

/**
 * Returns the anchors of a document's headings, as code hosts make them: lower case, spaces to
 * hyphens, other punctuation dropped, a number after a repeat (common practice, no source).
 *
 * @param {string} text
 * @returns {Set<string>}
 */
export function headingAnchors(text) {
  /** @type {Set<string>} */
  const anchors = new Set();
  const outsideFences = text.replace(/^\s*(```|~~~)[\s\S]*?^\s*\1/gm, '');
  for (const [, title] of outsideFences.matchAll(/^#{1,6}\s+(.+?)\s*#*$/gm)) {
    const plain = (title ?? '').toLowerCase().replace(/\[([^\]]*)\]\([^)]*\)/g, '$1');
    const anchor = plain.replace(/[^\p{L}\p{N}\s_-]/gu, '').replace(/\s/g, '-');
    let unique = anchor;
    for (let n = 1; anchors.has(unique); n++) unique = `${anchor}-${String(n)}`;
    anchors.add(unique);
  }
  return anchors;
}

/**
 * @param {string} name
 * @param {Set<string>} topLevel
 */
function looksLikeFile(name, topLevel) {
  if (!/^[\w.@/-]+$/.test(name) || name.startsWith('/') || name.startsWith('.svelte')) return false;
  // `node_modules/...` and `dist/...` come and go.
  if (NOT_OURS.has(name.split('/')[0] ?? '')) return false;
  const bare = name.replace(/^\.\//, '');
  if (bare.includes('/') && topLevel.has(bare.split('/')[0] ?? '')) return true;
  return FILE_ENDING.test(bare) && !/^\.[a-z]+$/.test(bare);
}

/**
 * @param {string} name
 * @param {{ places: Set<string>, names: Set<string> }} known
 */
function isThere(name, known) {
  const bare = name.replace(/^\.\//, '').replace(/\/$/, '');
  if (known.places.has(bare)) return true;
  if (!bare.includes('/')) return known.names.has(bare);
  // A path may start inside a folder that the text has named already: `roots/rank.ts`.
  return [...known.places].some((place) => place.endsWith(`/${bare}`));
}

/**
 * @param {string} root
 * @param {string} folder
 * @returns {string[]} with forward slashes
 */
function projectFiles(root, folder) {
  return readdirSync(path.join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const place = path.posix.join(folder, entry.name);
    if (NOT_OURS.has(place)) return [];
    return entry.isDirectory() ? projectFiles(root, place) : [place];
  });
}

/**
 * @param {string} file
 * @returns {string[]} the file and every folder above it
 */
function withFolders(file) {
  const steps = file.split('/');
  return steps.map((_, i) => steps.slice(0, i + 1).join('/'));
}
