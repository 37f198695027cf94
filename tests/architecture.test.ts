/**
 * The rules of the source tree, and proof that each can fail.
 *
 * The table of who may import whom is in architecture/rules.ts.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { importCycles } from './architecture/cycles';
import { importsIn } from './architecture/imports';
import { wordsInMarkup } from './architecture/markup-words';
import * as rules from './architecture/rules';
import { readSourceTree, sourceTreeOf } from './architecture/source-tree';

const root = path.resolve(import.meta.dirname, '..');
const manifest = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')) as {
  dependencies: Record<string, string>;
};
const dependencies = Object.keys(manifest.dependencies);
const { packagesAreDependencies, ALLOWED, ...plainRules } = rules;
const everyRule: Record<string, rules.Rule> = {
  ...plainRules,
  packagesAreDependencies: packagesAreDependencies(dependencies),
};

describe('the source tree', () => {
  const tree = readSourceTree(root);

  it('was read: it has files of every kind and imports between layers', () => {
    expect(tree.files.filter((file) => file.startsWith('src/')).length).toBeGreaterThan(10);
    expect(tree.files).toContain('src/model/ids.ts');
    expect(tree.files).toContain('src/serve/start.mjs');
    expect(tree.edges.length).toBeGreaterThan(10);
  });

  it.each(Object.entries(everyRule))('keeps the rule %s', (_name, rule) => {
    expect(rule(tree)).toEqual([]);
  });
});

/** A small tree that keeps every rule, with some files added or changed. */
function planted(changes: Record<string, string>): ReturnType<typeof sourceTreeOf> {
  const texts: Record<string, string> = {
    'src/model/ids.ts': 'export type Id = string;',
    'src/engine/numeric/dot.ts': 'export const dot = 1;',
    'src/engine/graph/order.ts': "import { dot } from '../numeric/dot';",
    'src/engine/roots/rank.ts': "import '../graph/order'; import '../../model/ids';",
    'src/engine/sheet/lines.ts': "import type { R } from '../roots/rank';",
    'src/engine/index.ts': "export * from './roots/rank';",
    'src/search/build.ts': "import lunr from 'lunr';",
    'src/storage/schema.ts': "import { openDB } from 'idb';",
    'src/workers/trace.worker.ts': "import '../engine';",
    'src/workers/client.ts': "new Worker(new URL('./trace.worker.ts', import.meta.url));",
    'src/state/log.svelte.ts': "import '../workers/client'; import '../storage/schema';",
    'src/mapview/draw.ts': "import cytoscape from 'cytoscape';",
    'src/screens/log/texts.ts': "export const texts = { log: { title: 'Log' } } as const;",
    'src/screens/log/Log.svelte':
      '<script>import { texts } from "./texts";</script><p class="quiet">{texts.log.title} · {open ? one : two}</p>',
    'src/screens/Roots.svelte': '<script lang="ts">import \'../state/log.svelte\';</script>',
    'src/app/main.ts':
      "import '../screens/Roots.svelte'; import map from '../../seed-data/m.json';",
    'src/serve/start.mjs': "import 'node:fs';",
    'seed-data/m.json': '',
    ...changes,
  };
  return sourceTreeOf(Object.keys(texts), (file) => texts[file] ?? '');
}

describe('each rule', () => {
  it('is content with the small tree the faults are planted in', () => {
    for (const [name, rule] of Object.entries(everyRule))
      expect(rule(planted({})), name).toEqual([]);
  });

  const faults: [keyof typeof everyRule, string, string][] = [
    ['layersImportOnlyWhatTheyMay', 'src/model/a.ts', "import type { L } from '../engine';"],
    ['layersImportOnlyWhatTheyMay', 'src/storage/a.ts', "export { x } from '../engine';"],
    [
      'layersImportOnlyWhatTheyMay',
      'src/engine/looks/a.ts',
      "let a: import('../../state/log.svelte').A;",
    ],
    [
      'layersImportOnlyWhatTheyMay',
      'src/search/a.ts',
      "new URL('../storage/schema.ts', import.meta.url);",
    ],
    [
      'layersImportOnlyWhatTheyMay',
      'src/components/A.svelte',
      "<script>import '../storage/schema';</script>",
    ],
    [
      'layersImportOnlyWhatTheyMay',
      'src/screens/A.svelte',
      "{#await import('../workers/client')}{/await}",
    ],
    [
      'layersImportOnlyWhatTheyMay',
      'src/state/a.svelte.ts',
      "const a = () => import('../app/main');",
    ],
    ['layersImportOnlyWhatTheyMay', 'src/app/a.ts', "import '../serve/start.mjs';"],
    [
      'layersImportOnlyWhatTheyMay',
      'src/serve/a.mjs',
      "/** @type {import('../model/ids').Id} */ let a;",
    ],
    [
      'layersImportOnlyWhatTheyMay',
      'src/engine/trends/a.ts',
      "import m from '../../../seed-data/m.json';",
    ],
    ['layersImportOnlyWhatTheyMay', 'src/extras/a.ts', ''],
    ['layersImportOnlyWhatTheyMay', 'src/loose.ts', ''],
    ['engineFoldersKeepTheirOrder', 'src/engine/numeric/a.ts', "import '../graph/order';"],
    [
      'engineFoldersKeepTheirOrder',
      'src/engine/graph/a.ts',
      "import type { R } from '../roots/rank';",
    ],
    [
      'engineFoldersKeepTheirOrder',
      'src/engine/looks/a.ts',
      "import type { R } from '../roots/rank';",
    ],
    [
      'engineFoldersKeepTheirOrder',
      'src/engine/reading/a.ts',
      "import { rank } from '../roots/rank';",
    ],
    [
      'engineFoldersKeepTheirOrder',
      'src/engine/roots/a.ts',
      "import type { L } from '../sheet/lines';",
    ],
    ['packagesStayInTheirLayer', 'src/state/a.ts', "import type { Index } from 'lunr';"],
    ['packagesStayInTheirLayer', 'src/app/a.ts', "import('idb/with-async-ittr');"],
    [
      'packagesStayInTheirLayer',
      'src/screens/A.svelte',
      "{#await import('cytoscape-dagre')}{/await}",
    ],
    ['onlyServeKnowsNode', 'src/formats/a.ts', "import { readFileSync } from 'node:fs';"],
    ['onlyServeKnowsNode', 'src/serve/a.mjs', "import 'vite';"],
    ['packagesAreDependencies', 'src/app/a.ts', "import 'vitest/config';"],
    ['importsLeadSomewhere', 'src/app/a.ts', "import './gone';"],
    [
      'importsLeadSomewhere',
      'src/workers/a.ts',
      "new Worker(new URL('./gone.ts', import.meta.url));",
    ],
    ['importsLeadSomewhere', 'src/app/a.ts', "import '/src/model/ids.ts';"],
    ['noImportCycles', 'src/model/ids.ts', "import type { A } from './ids';"],
    ['noImportCycles', 'src/engine/graph/order.ts', "import type { R } from '../roots/rank';"],
    ['doorsAreForOthers', 'src/engine/roots/a.ts', "import { rank } from '..';"],
    ['doorsAreForOthers', 'src/engine/roots/index.ts', ''],
    ['othersUseTheDoor', 'src/workers/a.ts', "import { rank } from '../engine/roots/rank';"],
    ['wordsStandInTexts', 'src/screens/A.svelte', '<p>{count} <b>misses</b></p>'],
    ['wordsStandInTexts', 'src/app/A.svelte', '<img src={ship} alt="A ship" />'],
    ['wordsStandInTexts', 'src/components/A.svelte', "<p>{open ? 'Close' : ''}</p>"],
    ['wordsStandInTexts', 'src/screens/A.svelte', '<Field label={`Item ${position}`} />'],
    ['textsAreTheirFolders', 'src/screens/log/texts.ts', "import '../../model/ids';"],
    ['textsAreTheirFolders', 'src/app/a.ts', "import '../screens/log/texts';"],
    ['noCatchAllNames', 'src/app/utils.ts', ''],
    ['noCatchAllNames', 'src/engine/common/a.ts', ''],
    ['noCatchAllNames', 'src/state/types.svelte.ts', ''],
  ];

  it.each(faults)('%s sees a fault planted in %s: %s', (name, file, text) => {
    const found = everyRule[name]?.(planted({ [file]: text })) ?? [];
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(file);
  });

  it('is tried by at least one planted fault', () => {
    expect(new Set(faults.map(([name]) => name))).toEqual(new Set(Object.keys(everyRule)));
  });

  it('lets no layer import one that may import it', () => {
    for (const [from, targets] of Object.entries(ALLOWED)) {
      for (const to of targets) expect(ALLOWED[to], `${from} and ${to}`).not.toContain(from);
    }
  });
});

describe('reading imports', () => {
  it('tells types from code, in every way of writing either', () => {
    const source = [
      "import a from 'static-default';",
      "import { b, type C } from 'static-mixed';",
      "import * as d from 'static-namespace';",
      "import 'static-bare';",
      "import {} from 'static-empty';",
      "export * from 'static-all';",
      "export { e } from 'static-again';",
      "import type { F } from 'type-clause';",
      "import { type G, type H } from 'type-each';",
      "export type { I } from 'type-again';",
      "export { type J } from 'type-again-each';",
      "type K = import('type-inline').K;",
      "const l = await import('dynamic-call');",
      'const m = import(`dynamic-template`);',
      "const n = new Worker(new URL('./asset-worker.ts', import.meta.url), { type: 'module' });",
      "const o = import.meta.glob('./glob-*.json');",
      "// import 'comment';",
      'const p = "import \'string\'";',
      "const q = new URL('not-a-file', location.href);",
    ].join('\n');
    const found = importsIn('x.ts', source);
    expect(found).toHaveLength(16);
    for (const { specifier, kind } of found) {
      expect(specifier.replace('./', '').split('-')[0], specifier).toBe(kind);
    }
  });

  it('finds imports in both scripts and the markup of a component', () => {
    const source = [
      '<script module lang="ts">import type { A } from \'./a\';</script>',
      '<script lang="ts">import B from \'./B.svelte\'; let x: number = $state(1);</script>',
      "<!-- import './comment' --> <p>import './text'</p>",
      "{#if x}{#await import('./c') then c}<B {c} onopen={() => import('./d')} />{/await}{/if}",
      "<style>@import './style.css';</style>",
    ].join('\n');
    expect(importsIn('X.svelte', source).map(({ specifier }) => specifier)).toEqual([
      './a',
      './B.svelte',
      './c',
      './d',
    ]);
  });

  it('refuses an import that no rule could follow', () => {
    expect(() => importsIn('x.ts', 'import(name);')).toThrow('x.ts: an import that is not a plain');
  });
});

describe('reading words', () => {
  it('finds those that are seen or heard, each with its line', () => {
    const source = [
      '<script>import { a } from "./a"; const quiet = "not looked at";</script>',
      '<p class="small">Two</p>',
      '<Field label="Three" hint={fault ?? `Four ${count}`} unit={5} />',
      "{#if count > 1}{open ? 'Six' : word}{/if}",
      '<svg><text x="1em">Seven</text></svg>',
    ].join('\n');
    expect(wordsInMarkup('X.svelte', source)).toEqual([
      { line: 2, words: 'Two' },
      { line: 3, words: 'Three' },
      { line: 3, words: 'Four' },
      { line: 4, words: 'Six' },
      { line: 5, words: 'Seven' },
    ]);
  });

  it('passes by keys, addresses, lengths, signs and what is handed to a function', () => {
    const source = [
      '<a class="button" href="#/log" aria-current={at === "log" ? "page" : undefined}>{name} · 1</a>',
      '<p style:width={`${px}px`} title={kind === "note" && name}>{sayOf("note")}</p>',
      '<button type="button" aria-label={texts.a.close} onclick={() => go("log")}>×</button>',
    ].join('\n');
    expect(wordsInMarkup('X.svelte', source)).toEqual([]);
  });
});

describe('finding cycles', () => {
  const edgesOf = (text: string) =>
    text.split(' ').map((pair) => ({ from: pair[0] ?? '', to: pair[1] ?? '' }));

  it('finds none in a chain of diamonds', () => {
    expect(importCycles(edgesOf('ab ac bd cd de df eg fg'))).toEqual([]);
  });

  it('finds each of two, and the shortest way round', () => {
    const cycles = importCycles(edgesOf('ab bc ca bd de ed xy bz zc'));
    expect(cycles.map((cycle) => new Set(cycle))).toEqual([
      new Set(['d', 'e']),
      new Set(['a', 'b', 'c']),
    ]);
    for (const cycle of cycles) expect(cycle[0]).toBe(cycle.at(-1));
  });
});
