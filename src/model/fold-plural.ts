/**
 * One word brought to the singular, for matching names: English, Latin and Greek plurals.
 *
 * The result is a key, never shown: a singular that happens to end in "s" may
 * lose it ("diabetes" -> "diabete") as long as no other term has that key.
 * So the lists below hold only words where a plain rule would join two terms
 * or tear one apart. Forms are common practice in medical Latin, no one source.
 */

/** Words that a rule would join with another term ("AIDS" with "aid"), left as they are. */
const unchanged = new Set([
  ...['aids', 'ards', 'sars', 'mers', 'pots', 'pcos', 'class', 'less', 'series', 'species'],
  // Prefixes, which a hyphen may have cut off: "anti-TNF" must meet "antiTNF".
  ...['trans', 'anti', 'semi', 'hemi', 'multi', 'mini', 'peri', 'demi'],
]);

/** Singulars in -as, -os, -ns, also as the end of a compound ("bloodgas"). */
const singularEnd = /(?:gas|pancreas|psoas|atlas|bias|lens|chaos|pathos)$/;

/** Plurals no rule gets right, also as the end of a compound of at least one more letter. */
const irregular: Readonly<Record<string, string>> = {
  // -a for -um
  bacteria: 'bacterium',
  diverticula: 'diverticulum',
  acetabula: 'acetabulum',
  atria: 'atrium',
  septa: 'septum',
  ova: 'ovum',
  sera: 'serum',
  ilia: 'ilium',
  ilea: 'ileum',
  hila: 'hilum',
  labia: 'labium',
  crania: 'cranium',
  cilia: 'cilium',
  flagella: 'flagellum',
  epithelia: 'epithelium',
  endothelia: 'endothelium',
  mesothelia: 'mesothelium',
  cerebella: 'cerebellum',
  haustra: 'haustrum',
  ostia: 'ostium',
  reticula: 'reticulum',
  capitula: 'capitulum',
  retinacula: 'retinaculum',
  strata: 'stratum',
  // -a for -on
  ganglia: 'ganglion',
  mitochondria: 'mitochondrion',
  criteria: 'criterion',
  phenomena: 'phenomenon',
  protozoa: 'protozoon',
  protozoan: 'protozoon',
  protozoans: 'protozoon',
  spermatozoa: 'spermatozoon',
  // -ina for -en, -ora and -era for -us or -ur
  foramina: 'foramen',
  lumina: 'lumen',
  putamina: 'putamen',
  corpora: 'corpus',
  femora: 'femur',
  viscera: 'viscus',
  genera: 'genus',
  crura: 'crus',
  cornua: 'cornu',
  // -ces and -ges for -x
  apices: 'apex',
  cortices: 'cortex',
  vertices: 'vertex',
  vortices: 'vortex',
  indices: 'index',
  matrices: 'matrix',
  cervices: 'cervix',
  appendices: 'appendix',
  helices: 'helix',
  varices: 'varix',
  fornices: 'fornix',
  calices: 'calyx',
  calyces: 'calyx',
  calix: 'calyx',
  thoraces: 'thorax',
  phalanges: 'phalanx',
  pharynges: 'pharynx',
  larynges: 'larynx',
  meninges: 'meninx',
  salpinges: 'salpinx',
  // -es for -is where the rules below do not reach
  testes: 'testis',
  nares: 'naris',
  axes: 'axis',
  pelves: 'pelvis',
  penes: 'penis',
  crises: 'crisis',
  theses: 'thesis',
  ptoses: 'ptosis',
  irides: 'iris',
  epididymides: 'epididymis',
  // -es on a singular in -s
  gases: 'gas',
  lenses: 'lens',
  biases: 'bias',
  pancreases: 'pancreas',
  atlases: 'atlas',
  pelvises: 'pelvis',
  irises: 'iris',
  penises: 'penis',
  testises: 'testis',
  // English
  calves: 'calf',
  halves: 'half',
  leaves: 'leaf',
  women: 'woman',
  men: 'man',
  children: 'child',
  teeth: 'tooth',
  feet: 'foot',
  lice: 'louse',
  mice: 'mouse',
};

/** Of `irregular`, those that also end compounds without doubt ("enterobacteria", "forefeet"). */
const irregularEnd = new RegExp(
  `^(.+)(${Object.keys(irregular)
    .filter((word) => word.length >= 6 || word === 'feet')
    .sort((a, b) => b.length - a.length)
    .join('|')})$`,
);

/** Singulars in -i, whose -i is no plural of -us. */
const singularInI = /(?:alkali|tsunami|pylori|corti)$/;

/** Endings, tried in order; the first that fits is the only one applied. */
const endings: readonly (readonly [RegExp, string])[] = [
  [/itides$/, 'itis'], // arthritides
  [/(...)mata$/, '$1ma'], // carcinomata, stigmata
  [/(..)ae$/, '$1a'], // vertebrae
  [/eaux$/, 'eau'],
  [/^(overdose|dose|nose|purpose|glucose|fructose|lactose|maltose|cellulose|sucrose)s$/, '$1'],
  [/(...)oses$/, '$1osis'], // stenoses
  [/yses$/, 'ysis'], // analyses
  [/(...)eses$/, '$1esis'], // prostheses
  [/(stas|ectas|ops)es$/, '$1is'], // metastases, bronchiectases, synopses
  [/(^|[ao]|^ab|^mis|^re|^dif|^f|^exc)uses$/, '$1use'], // causes, spouses, abuses
  [/uses$/, 'us'], // viruses
  [/(..)ii$/, '$1ius'], // radii
  [/(...)i$/, '$1us'], // nuclei
  [/(..)ies$/, '$1y'], // arteries
  [/(...)ie$/, '$1y'], // calorie, to meet "calories"
  [/(ss|sh|x|tch|nch|rch|lch|oach|each|eech)es$/, '$1'], // masses, reflexes, branches
  [/(...)oes$/, '$1o'], // echoes
  [/(ss|us|is)$/, '$1'], // mass, virus, stenosis: singular
  [/(...)s$/, '$1'],
];

/**
 * The singular of one word, as a key.
 *
 * @param word lower case letters without diacritics; anything else comes back as it is
 *
 * @example
 * singularOf('metastases'); // "metastasis"
 * singularOf('vertebrae'); // "vertebra"
 * singularOf('acidosis'); // "acidosis"
 */
export function singularOf(word: string): string {
  if (word.length < 3 || !/^[a-z]+$/.test(word)) return word;
  if (unchanged.has(word) || singularEnd.test(word) || singularInI.test(word)) return word;
  // Every plural ends in one of these; most words stop here.
  if (!/[saei]$|eaux$|women$|(?:^|child)r?en$|zoan$|feet$|teeth$|lix$|men$/.test(word)) return word;
  const known = Object.hasOwn(irregular, word) ? irregular[word] : undefined;
  if (known !== undefined) return known;
  const compound = irregularEnd.exec(word);
  if (compound) return `${compound[1] ?? ''}${irregular[compound[2] ?? ''] ?? ''}`;
  for (const [ending, singular] of endings) {
    if (ending.test(word)) return word.replace(ending, singular);
  }
  return word;
}
