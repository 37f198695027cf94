/** Pairs are common practice in medical writing; where a rule has a source it is named. */
import { describe, expect, it } from 'vitest';
import { foldName, foldWord, foldWords } from '../../../src/model/fold-name';

const meeting: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  'case and diacritics': [
    ['ACID-BASE DISORDERS', 'acid base disorder'],
    ['Sjögren syndrome', 'Sjogren syndrome'],
    ['Ménière’s disease', "Meniere's disease"],
    ['İleus', 'ileus'],
    ['Guillain–Barré syndrome', 'guillain barre syndrome'],
  ],
  'British and American spelling': [
    ['haemoglobin', 'hemoglobin'],
    ['haem', 'hem'],
    ['oedema', 'edema'],
    ['œdema', 'edema'],
    ['pulmonary oedema', 'Pulmonary edema'],
    ['anaemia', 'anemia'],
    ['anæmia', 'anemia'],
    ['leukaemia', 'leukemia'],
    ['leucaemia', 'leukemia'],
    ['leucocyte', 'leukocyte'],
    ['oesophageal varices', 'esophageal varix'],
    ['gastro-oesophageal reflux', 'gastroesophageal reflux'],
    ['para-oesophageal hernia', 'paraesophageal hernia'],
    ['tracheo-oesophageal fistula', 'tracheoesophageal fistulae'],
    ['diarrhoea', 'diarrhea'],
    ['amenorrhoea', 'amenorrhea'],
    ['paediatric', 'pediatric'],
    ['orthopaedics', 'orthopedics'],
    ['gynaecomastia', 'gynecomastia'],
    ['caecum', 'cecum'],
    ['coeliac disease', 'celiac disease'],
    ['foetus', 'fetus'],
    ['oestrogen', 'estrogen'],
    ['phaeochromocytoma', 'pheochromocytoma'],
    ['ischaemic stroke', 'ischemic stroke'],
    ['homoeostasis', 'homeostasis'],
    ['amoebae', 'amebas'],
    ['faeces', 'feces'],
    ['caesarean section', 'cesarian section'],
    ['tumour', 'tumor'],
    ['tumours', 'tumor'],
    ['colour vision', 'color vision'],
    ['labour', 'labor'],
    ['behaviour', 'behavior'],
    ['aqueous humour', 'aqueous humor'],
    ['nerve fibres', 'nerve fiber'],
    ['fibreoptic', 'fiberoptic'],
    ['goitre', 'goiter'],
    ['titre', 'titer'],
    ['respiratory centre', 'respiratory center'],
    ['millilitre', 'milliliter'],
    ['sulphonamide', 'sulfonamides'],
    ['immunisation', 'immunization'],
    ['hydrolyse', 'hydrolyze'],
    ['cell signalling', 'cell signaling'],
    ['intervertebral disc', 'intervertebral disk'],
    ['grey matter', 'gray matter'],
    ['manoeuvre', 'maneuver'],
    ['ageing', 'aging'],
    ['artefact', 'artifact'],
    ['aluminium', 'aluminum'],
    ['thrombo-embolism', 'thromboembolism'],
  ],
  'Greek letters and their names': [
    ['β-blocker', 'beta blocker'],
    ['Β blocker', 'beta-blocker'],
    ['TNF-α', 'TNF alpha'],
    ['TNFα', 'TNF-alpha'],
    ['α1-antitrypsin', 'alpha-1 antitrypsin'],
    ['γδ T cell', 'gamma delta T cells'],
    ['µ-opioid receptor', 'mu opioid receptor'],
    ['ς', 'sigma'],
  ],
  'sub- and superscripts': [
    ['Na⁺', 'Na+'],
    ['Na⁺/K⁺-ATPase', 'Na/K ATPase'],
    ['Ca²⁺', 'Ca2+'],
    ['Ca²⁺', 'Ca++'],
    ['Ca+2', 'Ca2+'],
    ['H₂O', 'H2O'],
    ['CO₂ retention', 'CO2 retention'],
    ['HCO₃⁻', 'HCO3-'],
    ['Cl⁻', 'Cl−'],
    ['PaO₂', 'PaO2'],
  ],
  'hyphens, spaces and punctuation': [
    ['beta-blocker', 'beta blocker'],
    ['beta-blocker', 'betablocker'],
    ['beta‑blockers', 'betablocker'],
    ['acid–base', 'acid-base'],
    ['Renal: tubular acidosis', 'renal tubular acidosis'],
    ['  glomerulus\t', 'Glomerulus.'],
    ['ventilation/perfusion', 'ventilation-perfusion'],
    ['anti-TNF', 'antiTNF'],
    ['trans-fatty acid', 'transfatty acids'],
    ['acid & base', 'acid and base'],
    ['co-enzyme', 'coenzyme'],
  ],
  possessives: [
    ['Crohn’s disease', 'Crohn disease'],
    ["Crohn's disease", 'Crohns disease'],
    ["CROHN'S DISEASE", 'crohn disease'],
    ["Graves' disease", 'Graves disease'],
    ["Addison's disease", 'Addison disease'],
  ],
  'English plurals': [
    ['enzymes', 'enzyme'],
    ['kinases', 'kinase'],
    ['diseases', 'disease'],
    ['arteries', 'artery'],
    ['biopsies', 'biopsy'],
    ['masses', 'mass'],
    ['abscesses', 'abscess'],
    ['reflexes', 'reflex'],
    ['headaches', 'headache'],
    ['bundle branches', 'bundle branch'],
    ['calories', 'calorie'],
    ['valves', 'valve'],
    ['viruses', 'virus'],
    ['causes', 'cause'],
    ['thrombuses', 'thrombus'],
    ['sinuses', 'sinus'],
    ['doses', 'dose'],
    ['arterial blood gases', 'arterial blood gas'],
    ['lenses', 'lens'],
    ['calves', 'calf'],
    ['teeth', 'tooth'],
    ['formulas', 'formulae'],
    ['toes', 'toe'],
    ['NSAIDs', 'NSAID'],
    ['MIs', 'MI'],
    ['ligases', 'ligase'],
    ['sugars', 'sugar'],
    ['diuretics', 'diuretic'],
  ],
  'Latin and Greek plurals': [
    ['nuclei', 'nucleus'],
    ['metastases', 'metastasis'],
    ['vertebrae', 'vertebra'],
    ['bacteria', 'bacterium'],
    ['enterobacteria', 'enterobacterium'],
    ['diverticula', 'diverticulum'],
    ['diagnoses', 'diagnosis'],
    ['stenoses', 'stenosis'],
    ['mycoses', 'mycosis'],
    ['acidoses', 'acidosis'],
    ['prostheses', 'prosthesis'],
    ['hypotheses', 'hypothesis'],
    ['analyses', 'analysis'],
    ['epiphyses', 'epiphysis'],
    ['crises', 'crisis'],
    ['testes', 'testis'],
    ['axes', 'axis'],
    ['apices', 'apex'],
    ['cortices', 'cortex'],
    ['appendices', 'appendix'],
    ['cervices', 'cervix'],
    ['thoraces', 'thorax'],
    ['calyces', 'calyx'],
    ['phalanges', 'phalanx'],
    ['foramina', 'foramen'],
    ['carcinomata', 'carcinoma'],
    ['stigmata', 'stigma'],
    ['arthritides', 'arthritis'],
    ['ganglia', 'ganglion'],
    ['mitochondria', 'mitochondrion'],
    ['criteria', 'criterion'],
    ['staphylococci', 'staphylococcus'],
    ['emboli', 'embolus'],
    ['foci', 'focus'],
    ['radii', 'radius'],
    ['bursae', 'bursa'],
    ['sequelae', 'sequela'],
    ['atria', 'atrium'],
    ['ova', 'ovum'],
    ['femora', 'femur'],
    ['bronchiectases', 'bronchiectasis'],
  ],
};

const apart: readonly (readonly [string, string])[] = [
  ['ilium', 'ileum'],
  ['ileum', 'ileus'],
  ['AIDS', 'aid'],
  ['ARDS', 'ARD'],
  ['PAE', 'PE'],
  ['TOE', 'TE'],
  ['toe', 'tee'],
  ['NOS', 'nose'],
  ['acidosis', 'acid'],
  ['acidosis', 'alkalosis'],
  ['arthritis', 'arthrosis'],
  ['basis', 'base'],
  ['axis', 'axe'],
  ['Fe2+', 'Fe3+'],
  ['CO', 'CO2'],
  ['T3', 'T4'],
  ['1,25', '125'],
  ['pH < 7', 'pH > 7'],
  ['K↑', 'K↓'],
  ['dysphagia', 'dysphasia'],
  ['afferent', 'efferent'],
  ['abduction', 'adduction'],
  ['ureter', 'urethra'],
  ['perineal', 'peroneal'],
  ['malleus', 'malleolus'],
  ['humerus', 'humorous'],
  ['facial nerve', 'fascial nerve'],
  ['mucus', 'mucous'],
  ['lactase', 'lactate'],
  ['glucagon', 'glycogen'],
  ['media', 'medium'],
  ['virus', 'viral'],
  ['oval', 'ovum'],
  ['hypertension', 'hypotension'],
  ['hyperkalaemia', 'hypokalaemia'],
  ['Cushing disease', 'Cushing syndrome'],
  ['alpha blocker', 'beta blocker'],
  ['alkali', 'alkalosis'],
  ['carcinoma', 'carcinoid'],
  ['thesis', 'these'],
  ['lysis', 'lyse'],
  ['gas', 'ga'],
  ['lens', 'len'],
];

describe('foldName', () => {
  for (const [rule, pairs] of Object.entries(meeting)) {
    it.each(pairs)(`brings together names that differ in ${rule}: %s = %s`, (a, b) => {
      expect(foldName(a)).toBe(foldName(b));
      expect(foldName(a)).not.toBe('');
    });
  }

  it.each(apart)('keeps different terms apart: %s / %s', (a, b) => {
    expect(foldName(a)).not.toBe(foldName(b));
  });

  it('gives one key to no two terms of the lists that are not paired', () => {
    const plain = (name: string) => name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
    // Terms by key, pairs chained through a name they share; a key must hold one chain.
    const chains = new Map<string, Set<string>[]>();
    for (const [a, b] of Object.values(meeting).flat()) {
      const pair = [plain(a), plain(b)];
      const ofKey = chains.get(foldName(a)) ?? [];
      const touched = ofKey.filter((chain) => pair.some((name) => chain.has(name)));
      const joined = new Set([...touched.flatMap((chain) => [...chain]), ...pair]);
      chains.set(foldName(a), [...ofKey.filter((chain) => !touched.includes(chain)), joined]);
    }
    expect([...chains.values()].filter((ofKey) => ofKey.length > 1)).toEqual([]);
  });

  it('takes a name like a property of every object for a word like any other', () => {
    for (const word of ['constructor', 'toString', '__proto__', 'valueOf', 'hasOwnProperty']) {
      expect(foldName(`the ${word} of it`), word).toMatch(/^[a-z ]+$/);
    }
    expect(foldName('constructor')).toBe('constructor');
  });

  it('is empty for text without letters or digits', () => {
    for (const text of ['', '   ', '…', '-', '+']) expect(foldName(text)).toBe('');
  });

  it('leaves other scripts readable: letters made of marks stay', () => {
    expect(foldName('हृदय')).toBe('हृदय'.normalize('NFKD'));
    expect(foldName('が')).not.toBe(foldName('か'));
    expect(foldName('Сердце')).toBe('сердце');
  });

  it('gives a key that folds to itself, for every single word of the lists', () => {
    const words = [...Object.values(meeting).flat(), ...apart]
      .flat()
      .flatMap((name) => name.split(/[^\p{L}]+/u))
      .filter((word) => word.length > 3);
    expect(words.length).toBeGreaterThan(200);
    for (const word of words) expect(foldName(foldName(word))).toBe(foldName(word));
  });
});

describe('foldWords', () => {
  it('folds each word on its own and keeps their order', () => {
    expect(foldWords('Oedema of the β-cells')).toEqual(['edema', 'of', 'the', 'beta', 'cell']);
  });

  it('agrees with foldName on a single word', () => {
    for (const word of ['Oedema', 'metastases', 'TNF', 'Leucocytes', 'toes']) {
      expect(foldWord(word)).toBe(foldName(word));
    }
  });
});
