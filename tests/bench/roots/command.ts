/** The command line of `npm run bench:roots`. */
import { parseArgs } from 'node:util';
import { methods, methodsLeftOut, type Method } from './methods';
import { variants, type Variant } from './variants';

export interface Command {
  readonly seeds: readonly number[];
  /** Undefined: each variant's own. */
  readonly sizes: readonly number[] | undefined;
  readonly variants: readonly Variant[];
  readonly methods: readonly Method[];
  readonly json: boolean;
  /** How many of the candidates the sampler runs on: the first ones. */
  readonly sampled: number;
}

export const usage = `npm run bench:roots -- [options]
  --seeds 101-108        candidates, one for each seed (1-99 are for tuning, so not for reporting)
  --sampled 4            candidates that the sampler runs on, the first ones; it takes seconds for each
  --sizes 400,1600,4800  items answered (default: each variant's own)
  --variants base,...    of: ${variants.map(({ name }) => name).join(', ')}
  --methods count,...    of: ${methods.map(({ name }) => name).join(', ')}
  --quick                two candidates, 400 items, base and misses-only
  --json                 the same as JSON
`;

/** Seeds of the reported table: none was looked at while anything was set. */
const reportedSeeds = '101-108';
/** Of these the sampler runs on as many as keep the whole table within a quarter of an hour. */
const reportedSampled = 4;

/**
 * Reads the arguments after the script's name.
 *
 * @throws {RangeError} naming an argument that is no seed range, size, variant or method
 *
 * @example
 * readCommand(['--seeds', '1-3']).seeds; // [1, 2, 3]
 */
export function readCommand(args: readonly string[]): Command {
  const { values } = parseArgs({
    args: [...args],
    options: {
      seeds: { type: 'string' },
      sampled: { type: 'string' },
      sizes: { type: 'string' },
      variants: { type: 'string' },
      methods: { type: 'string' },
      quick: { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
    },
  });
  const quick = values.quick;
  return {
    seeds: readSeeds(values.seeds ?? (quick ? '101-102' : reportedSeeds)),
    sizes: values.sizes === undefined ? (quick ? [400] : undefined) : readSizes(values.sizes),
    variants: choose('variants', values.variants ?? (quick ? 'base,misses-only' : ''), variants),
    methods: choose(
      'methods',
      values.methods ?? '',
      methods,
      methods.filter(({ name }) => !methodsLeftOut.has(name)),
    ),
    json: values.json,
    sampled: values.sampled === undefined ? reportedSampled : readSizes(values.sampled)[0]!,
  };
}

function readSeeds(text: string): number[] {
  const [from, to = from] = text.split('-').map(Number);
  if (!Number.isInteger(from) || !Number.isInteger(to) || from! < 0 || to! < from!) {
    throw new RangeError(`--seeds: got ${text}; need whole numbers, as 101-116`);
  }
  return Array.from({ length: to! - from! + 1 }, (_, index) => from! + index);
}

function readSizes(text: string): number[] {
  return text.split(',').map((part) => {
    const size = Number(part);
    if (!Number.isInteger(size) || size < 1) {
      throw new RangeError(`--sizes: got ${part}; need whole numbers of at least 1`);
    }
    return size;
  });
}

/** The named ones in their own order; all of `otherwise` for an empty list. */
function choose<T extends { readonly name: string }>(
  flag: string,
  text: string,
  known: readonly T[],
  otherwise: readonly T[] = known,
): readonly T[] {
  if (text === '') return otherwise;
  const wanted = text.split(',');
  for (const name of wanted) {
    if (!known.some((one) => one.name === name)) {
      const names = known.map((one) => one.name).join(', ');
      throw new RangeError(`--${flag}: got ${name}; need some of ${names}`);
    }
  }
  return known.filter(({ name }) => wanted.includes(name));
}
