/**
 * The table of contents of the shipped maps: how many concepts each discipline has in each organ
 * system, and why the empty cells are empty.
 *
 *   npm run seed:coverage    prints it and writes coverage.md beside this file
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readMapParts } from '../demo/read-seed';

interface Named {
  readonly id: string;
  readonly name: string;
  readonly shortName?: string;
}

interface CountedConcept {
  readonly disciplines: readonly string[];
  readonly systems: readonly string[];
}

interface CountedMap {
  readonly name: string;
  readonly disciplines: readonly Named[];
  readonly systems: readonly Named[];
  readonly concepts: readonly CountedConcept[];
}

/** Why a cell is empty, by map, discipline and systems; our judgement. */
const reasons: readonly (readonly [string, string, string, string])[] = [
  ['human', 'embryology', 'psychiatric', 'no mental illness has an embryology of its own to learn'],
  [
    'human',
    'immunology',
    'psychiatric',
    'encephalitis by antibodies would stand here; it is no concept of its own on this map',
  ],
  [
    'human',
    'microbiology',
    'endocrine',
    'infection of a gland is one cause among others, and is in the pathology of that gland',
  ],
  [
    'human',
    'microbiology',
    'psychiatric',
    'infections that change the mind (syphilis, HIV) are seen in Nervous',
  ],
  [
    'human',
    'behavioural',
    'renal hepatobiliary blood immune',
    'consent, capacity, talk and the law are the same for every organ: they are seen where their usual cases are, or in Multisystem',
  ],
  [
    'human',
    'biostatistics',
    'renal hepatobiliary nervous musculoskeletal skin',
    'a method belongs to no organ: it is seen where its usual examples are (screening, trials, outbreaks), or in Multisystem',
  ],
  [
    'veterinary',
    'anatomy',
    'renal skin blood multisystem',
    'a small map: only anatomy that differs between species and matters in practice',
  ],
  [
    'veterinary',
    'pharmacology',
    'endocrine skin blood',
    'a small map: the drugs are within the diseases they are given for',
  ],
  [
    'veterinary',
    'vet-infection',
    'renal endocrine',
    'infections with their seat there are few, and are within the pathology',
  ],
  ['veterinary', 'vet-surgery', 'endocrine blood', 'seldom operated on'],
  [
    'veterinary',
    'vet-public-health',
    'cardiovascular renal endocrine musculoskeletal',
    'the law and the food chain ask about herds and infections, not about these organs',
  ],
];

/** Reads a shipped map; its own tests check it, this only gathers. */
export function readCountedMap(folder: string): CountedMap {
  const [head, ...parts] = readMapParts(folder) as [
    CountedMap,
    ...{ concepts: CountedConcept[] }[],
  ];
  return { ...head, concepts: parts.flatMap(({ concepts }) => concepts) };
}

/** How many concepts belong to a discipline (or to any) and are seen in a system (or in any). */
export function countIn(map: CountedMap, discipline?: string, system?: string): number {
  return map.concepts.filter(
    (concept) =>
      (discipline === undefined || concept.disciplines.includes(discipline)) &&
      (system === undefined || concept.systems.includes(system)),
  ).length;
}

export function reasonOf(folder: string, discipline: string, system: string): string | undefined {
  return reasons.find(
    ([map, of, systems]) =>
      map === folder && of === discipline && systems.split(' ').includes(system),
  )?.[3];
}

/** A Markdown table with cells of one width, as the formatter would have them. */
function table(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, column) =>
    Math.max(3, ...rows.map((row) => row[column]!.length)),
  );
  const lines = rows.map((row) => {
    const cells = row.map((cell, column) =>
      column === 0 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
    );
    return `| ${cells.join(' | ')} |`;
  });
  const rule = widths.map((width, column) =>
    column === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`,
  );
  return [lines[0], `| ${rule.join(' | ')} |`, ...lines.slice(1)].join('\n');
}

/** One map's section: the table, then its holes. */
export function coverageOf(folder: string): string {
  const map = readCountedMap(folder);
  const short = ({ name, shortName }: Named) => shortName ?? name;
  const cell = (count: number) => (count === 0 ? '–' : String(count));
  const rows = [
    ['Discipline', ...map.systems.map(short), 'All'],
    ...[...map.disciplines, undefined].map((discipline) => [
      discipline?.name ?? 'All',
      ...map.systems.map(({ id }) => cell(countIn(map, discipline?.id, id))),
      String(countIn(map, discipline?.id)),
    ]),
  ];
  const cells = map.disciplines.flatMap((discipline) =>
    map.systems.map((system) => ({
      discipline,
      system,
      count: countIn(map, discipline.id, system.id),
    })),
  );
  const holes = cells.filter(({ count }) => count === 0);
  const thin = cells.filter(({ count }) => count === 1);
  const why = ({ discipline, system }: (typeof cells)[number]) =>
    reasonOf(folder, discipline.id, system.id) ?? 'no reason given';
  const named = new Map<string, string[]>();
  for (const hole of holes) {
    const key = `${hole.discipline.name}|${why(hole)}`;
    named.set(key, [...(named.get(key) ?? []), hole.system.name]);
  }
  return [
    `## ${map.name}: ${map.concepts.length} concepts`,
    table(rows),
    `${cells.length} cells, ${holes.length} of them empty (–), ${thin.length} with a single concept. The empty ones:`,
    Array.from(named, ([key, systems]) => {
      const [discipline, reason] = key.split('|');
      return `- ${discipline} in ${systems.join(', ')}: ${reason}.`;
    }).join('\n'),
  ].join('\n\n');
}

/** The whole document. */
export function coverageText(): string {
  return [
    '# Coverage of the shipped maps, discipline by organ system',
    'Number of concepts; one concept may count in several rows and columns. The maps are study aids’ vocabularies, not clinical terminologies. Made by `npm run seed:coverage`; a test compares it with the maps.',
    coverageOf('human'),
    coverageOf('veterinary'),
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

if (process.argv[1]?.endsWith('coverage.ts')) {
  const text = coverageText();
  writeFileSync(join(import.meta.dirname, 'coverage.md'), text);
  console.log(text);
}
