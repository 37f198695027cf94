/** The rules of the source tree, each a function from the tree to the lines that break it. */
import { importCycles } from './cycles';
import type { Edge, SourceTree } from './source-tree';

/** What each layer may import besides itself; types count too. `serve` runs in Node, apart. */
export const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  model: [],
  engine: ['model'],
  formats: ['model'],
  search: ['model'],
  storage: ['model'],
  workers: ['model', 'engine', 'formats', 'search'],
  state: ['model', 'engine', 'formats', 'search', 'storage', 'workers'],
  components: ['model', 'engine'],
  mapview: ['model', 'engine'],
  screens: ['model', 'engine', 'state', 'components', 'mapview'],
  app: [
    ...['model', 'engine', 'formats', 'search', 'storage', 'workers', 'state'],
    ...['components', 'mapview', 'screens'],
  ],
  serve: [],
};

/** Layers whose `index.ts`, once it is there, is the only way in. */
const DOORED = ['engine', 'formats', 'storage', 'search'];

/** Packages that one layer only may know, so that they can be exchanged. */
const OWNED: Readonly<Record<string, string>> = {
  lunr: 'search',
  idb: 'storage',
  cytoscape: 'mapview',
};

/** Pure layers take data as arguments; the others may load the starter map and the demo. */
const PURE = ['model', 'engine', 'formats', 'search'];

const CATCH_ALL = /^(utils?|helpers?|commons?|types?|misc|shared)$/;

export type Rule = (tree: SourceTree) => string[];

const fault = (edge: Edge, why: string): string => `${edge.from} -> ${edge.specifier}: ${why}`;

/** 'src/engine/roots/rank.ts' is in layer 'engine'; a file outside src is in none. */
function layerOf(file: string): string {
  const [top, layer = '', ...rest] = file.split('/');
  return top === 'src' && rest.length > 0 ? layer : '';
}

/** The folder inside engine, or '' for a file at its top, such as the door. */
function engineFolderOf(file: string): string {
  const [, , folder = '', ...rest] = file.split('/');
  return rest.length > 0 ? folder : '';
}

function fileEdges(tree: SourceTree): (Edge & { to: string })[] {
  return tree.edges.flatMap((edge) =>
    edge.target.kind === 'file' ? [{ ...edge, to: edge.target.file }] : [],
  );
}

function isDoor(file: string): boolean {
  return /^src\/[^/]+\/index\.ts$/.test(file);
}

/** Every file is in a layer of the table, and imports only what its row lists. */
export const layersImportOnlyWhatTheyMay: Rule = (tree) => {
  const strays = tree.files
    .filter((file) => file.startsWith('src/') && /\.(ts|mjs|js|svelte)$/.test(file))
    .filter((file) => !(layerOf(file) in ALLOWED))
    .map((file) => `${file}: in no layer of the table`);
  const faults = fileEdges(tree).flatMap((edge) => {
    const from = layerOf(edge.from);
    const to = layerOf(edge.to);
    if (from === to || ALLOWED[from]?.includes(to)) return [];
    if (to === '' && edge.to.startsWith('seed-data/') && mayLoadSeeds(from)) return [];
    return [fault(edge, `${from} may not import ${to === '' ? 'from outside src' : to}`)];
  });
  return [...strays, ...faults];
};

function mayLoadSeeds(layer: string): boolean {
  return !PURE.includes(layer) && layer !== 'serve';
}

/** Inside engine: numeric, then graph, then the rest; reading and sheet read types of roots. */
export const engineFoldersKeepTheirOrder: Rule = (tree) =>
  fileEdges(tree).flatMap((edge) => {
    if (layerOf(edge.from) !== 'engine' || layerOf(edge.to) !== 'engine') return [];
    const from = engineFolderOf(edge.from);
    const to = engineFolderOf(edge.to);
    if (from === to || from === '') return []; // the door shows all of them
    if (to === 'numeric') return [];
    if (to === 'graph' && from !== 'numeric') return [];
    const readsResults = (from === 'reading' || from === 'sheet') && to === 'roots';
    if (readsResults && edge.kind === 'type') return [];
    return [fault(edge, `engine/${from} may not import engine/${to === '' ? 'its door' : to}`)];
  });

/** lunr, idb and cytoscape, with their add-ons, each in one layer. */
export const packagesStayInTheirLayer: Rule = (tree) =>
  tree.edges.flatMap((edge) => {
    if (edge.target.kind !== 'package') return [];
    const base = edge.target.name.replace(/^@types\//, '').split('-')[0] ?? '';
    const owner = OWNED[base];
    if (owner === undefined || layerOf(edge.from) === owner) return [];
    return [fault(edge, `only ${owner} may import ${base}`)];
  });

/** Node's own modules are for serve, which in turn has nothing else: it runs before any install. */
export const onlyServeKnowsNode: Rule = (tree) =>
  tree.edges.flatMap((edge) => {
    if (edge.target.kind !== 'package') return [];
    const fromNode = edge.target.name.startsWith('node:');
    if (layerOf(edge.from) === 'serve') {
      return fromNode ? [] : [fault(edge, 'serve has only node: modules')];
    }
    return fromNode ? [fault(edge, 'only serve may use Node')] : [];
  });

/** A package that src imports is one the app ships with. */
export function packagesAreDependencies(dependencies: readonly string[]): Rule {
  return (tree) =>
    tree.edges.flatMap((edge) => {
      if (edge.target.kind !== 'package' || edge.target.name.startsWith('node:')) return [];
      if (dependencies.includes(edge.target.name)) return [];
      return [fault(edge, `${edge.target.name} is not among the dependencies`)];
    });
}

/** Every relative import leads to a file. */
export const importsLeadSomewhere: Rule = (tree) =>
  tree.edges.flatMap((edge) =>
    edge.target.kind === 'missing' ? [fault(edge, 'leads to no file')] : [],
  );

/** No file imports itself by way of others. */
export const noImportCycles: Rule = (tree) =>
  importCycles(fileEdges(tree)).map((cycle) => `cycle: ${cycle.join(' -> ')}`);

/** An `index.ts` is a layer's door: at its top, and for others only. */
export const doorsAreForOthers: Rule = (tree) => [
  ...tree.files
    .filter((file) => file.startsWith('src/') && file.endsWith('/index.ts') && !isDoor(file))
    .map((file) => `${file}: index.ts only as the door of a layer`),
  ...fileEdges(tree).flatMap((edge) =>
    isDoor(edge.to) && layerOf(edge.from) === layerOf(edge.to)
      ? [fault(edge, 'a layer does not go through its own door')]
      : [],
  ),
];

/** Where a layer has a door, the others go through it. */
export const othersUseTheDoor: Rule = (tree) =>
  fileEdges(tree).flatMap((edge) => {
    const to = layerOf(edge.to);
    if (!DOORED.includes(to) || layerOf(edge.from) === to) return [];
    if (!tree.files.includes(`src/${to}/index.ts`) || isDoor(edge.to)) return [];
    return [fault(edge, `go through src/${to}/index.ts`)];
  });

/** No file or folder whose name says nothing of what is in it. */
export const noCatchAllNames: Rule = (tree) =>
  tree.files
    .filter((file) => file.startsWith('src/'))
    .filter((file) => file.split('/').some((step) => CATCH_ALL.test(step.replace(/\..*$/, ''))))
    .map((file) => `${file}: a catch-all name`);

/** No word stands in the markup of a component: all are in the texts of its folder, ready to be translated. */
export const wordsStandInTexts: Rule = (tree) =>
  tree.words.map(({ file, line, words }) => `${file}:${line}: “${words}” belongs in a texts.ts`);

/** A folder's `texts.ts` is for that folder alone, and needs nothing itself. */
export const textsAreTheirFolders: Rule = (tree) =>
  fileEdges(tree).flatMap((edge) => {
    if (edge.from.endsWith('/texts.ts'))
      return [fault(edge, 'a texts.ts holds words and no imports')];
    if (!edge.to.endsWith('/texts.ts')) return [];
    const folder = edge.to.slice(0, -'texts.ts'.length);
    return edge.from.startsWith(folder)
      ? []
      : [fault(edge, 'these are the words of another folder')];
  });
