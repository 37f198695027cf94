/** The files under src with what each imports, resolved to files and packages. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { importsIn, type ImportKind } from './imports';
import { wordsInMarkup, type FoundWords } from './markup-words';

/** One import, resolved. */
export interface Edge {
  /** file that imports, relative to the project, with forward slashes */
  readonly from: string;
  readonly kind: ImportKind;
  /** as written */
  readonly specifier: string;
  readonly target:
    | { readonly kind: 'file'; readonly file: string }
    | { readonly kind: 'package'; readonly name: string }
    | { readonly kind: 'missing' };
}

export interface SourceTree {
  /** every file, scripts and others, relative to the project, with forward slashes */
  readonly files: readonly string[];
  readonly edges: readonly Edge[];
  /** words that stand in the markup of components */
  readonly words: readonly (FoundWords & { readonly file: string })[];
}

const SCRIPT = /\.(ts|mjs|js|svelte)$/;

/** Reads the source tree of a project folder. `seed-data` is listed, so that src may name it. */
export function readSourceTree(root: string): SourceTree {
  const read = (file: string): string => readFileSync(path.join(root, file), 'utf8');
  return sourceTreeOf([...filesUnder(root, 'src'), ...filesUnder(root, 'seed-data')], read);
}

/**
 * The source tree of some files. Only those under src are read.
 *
 * @param files relative to the project, with forward slashes
 * @param read returns the text of one of them
 */
export function sourceTreeOf(files: readonly string[], read: (file: string) => string): SourceTree {
  const known = new Set(files);
  const scripts = files.filter((file) => file.startsWith('src/') && SCRIPT.test(file));
  const edges = scripts.flatMap((from) =>
    importsIn(from, read(from)).map(({ specifier, kind }) => ({
      from,
      kind,
      specifier,
      target: resolve(from, specifier, kind, known),
    })),
  );
  const components = scripts.filter((file) => file.endsWith('.svelte'));
  const words = components.flatMap((file) =>
    wordsInMarkup(file, read(file)).map((found) => ({ ...found, file })),
  );
  return { files, edges, words };
}

function resolve(
  from: string,
  specifier: string,
  kind: ImportKind,
  known: ReadonlySet<string>,
): Edge['target'] {
  const plain = specifier.replace(/\?.*$/, ''); // `?url`, `?raw` and the like are the bundler's
  if (!plain.startsWith('.') && !plain.startsWith('/') && kind !== 'asset') {
    return { kind: 'package', name: packageName(plain) };
  }
  // An absolute address would be relative to the project for the bundler; the house writes `./`.
  if (plain.startsWith('/')) return { kind: 'missing' };
  const base = path.posix.join(path.posix.dirname(from), plain);
  if (kind === 'glob') {
    const prefix = base.replace(/[^/]*\*.*$/, '');
    const first = [...known].find((file) => file.startsWith(prefix) && file !== from);
    return first ? { kind: 'file', file: first } : { kind: 'missing' };
  }
  const asTypeScript = base.replace(/\.js$/, '.ts');
  const candidates = [base, `${base}.ts`, asTypeScript, `${base}/index.ts`];
  const file = candidates.find((candidate) => known.has(candidate));
  return file === undefined ? { kind: 'missing' } : { kind: 'file', file };
}

/** 'lunr/x' is 'lunr'; '@a/b/c' is '@a/b'; 'node:fs/promises' is 'node:fs/promises'. */
function packageName(specifier: string): string {
  if (specifier.startsWith('node:')) return specifier;
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

function filesUnder(root: string, folder: string): string[] {
  return readdirSync(path.join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const inside = `${folder}/${entry.name}`;
    return entry.isDirectory() ? filesUnder(root, inside) : [inside];
  });
}
