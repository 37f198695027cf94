/** Reads the shipped map, its readings and the demo's texts from disk. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface SeedConcept {
  readonly id: string;
  readonly name: string;
  readonly systems: readonly string[];
  readonly restsOn: readonly { readonly concept: string; readonly strength?: number }[];
}

export interface OptionTurn {
  readonly option: string;
  readonly turn: string;
}

export type Pieces = ReadonlyMap<
  string,
  { readonly pieces: readonly string[]; readonly optionTurns: readonly OptionTurn[] }
>;

const here = import.meta.dirname;

/** All files of one shipped map as unknown JSON, its head first. */
export function readMapParts(name: string): unknown[] {
  const folder = join(here, '..', 'maps', name);
  const parts = readdirSync(folder).filter((file) => file.endsWith('.json') && file !== 'map.json');
  return ['map.json', ...parts.sort()].map((file) => readJson(join(folder, file)));
}

export function readJson(path: string): unknown {
  return JSON.parse(readFileSync(path, 'utf8'));
}

/** The concepts of a map's parts. The map's own tests check them; this only gathers. */
export function conceptsOf(parts: readonly unknown[]): SeedConcept[] {
  return parts.flatMap((part) => (part as { concepts?: SeedConcept[] }).concepts ?? []);
}

interface PieceEntry {
  readonly concept: string;
  readonly pieces: readonly string[];
  readonly optionTurns?: readonly OptionTurn[];
}

/** The missing pieces by concept. */
export function readPieces(): Pieces {
  const file = readJson(join(here, 'pieces.json')) as { concepts: readonly PieceEntry[] };
  return new Map(
    file.concepts.map(({ concept, pieces, optionTurns = [] }) => [
      concept,
      { pieces, optionTurns },
    ]),
  );
}

export interface SeedReading {
  readonly id: string;
  readonly main: readonly string[];
  readonly touched: readonly string[];
}

export function readReadings(map: string): readonly SeedReading[] {
  const file = readJson(join(here, '..', 'readings', `${map}.json`));
  return (file as { readings: readonly SeedReading[] }).readings;
}

export interface SeedLine {
  readonly id: string;
  readonly text: string;
}

/** The notes and sheet lines of the invented candidate, as they stand in their files. */
export function readTexts(): { notes: readonly object[]; lines: readonly SeedLine[] } {
  const { notes } = readJson(join(here, 'notes.json')) as { notes: readonly object[] };
  const { lines } = readJson(join(here, 'lines.json')) as { lines: readonly SeedLine[] };
  return { notes, lines };
}
