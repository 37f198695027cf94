/** The fraction-subtraction responses, where they lie beside the project; never part of it. */
import { existsSync, readFileSync } from 'node:fs';

const folder = new URL('../../../../shared/data/fraction-subtraction/', import.meta.url);

/** Said by tests that skip. */
export const fractionDataMissing =
  'skipped: the fraction-subtraction responses are not at ../shared/data/fraction-subtraction';

export interface FractionData {
  /** 536 students by 20 items; true = right. */
  readonly answers: readonly (readonly boolean[])[];
  /** 20 items by 8 skills (de la Torre & Douglas 2004). */
  readonly needs: readonly (readonly boolean[])[];
}

/** The data, or undefined where they are not there. */
export function findFractionData(): FractionData | undefined {
  if (!existsSync(new URL('responses.csv', folder))) return undefined;
  return { answers: readTable('responses.csv'), needs: readTable('q-matrix.csv') };
}

/** A table of 0 and 1 under one head line. */
function readTable(name: string): boolean[][] {
  const [, ...lines] = readFileSync(new URL(name, folder), 'utf8').trim().split(/\r?\n/);
  return lines.map((line) => line.split(',').map((cell) => cell === '1'));
}
