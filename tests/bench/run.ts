/**
 * `npm run bench [-- words]`: runs the benchmarks whose name holds one of the words, or all.
 *
 * Every file `tests/bench/<topic>/<name>.bench.ts` exports `benches: readonly Bench[]`.
 */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Bench } from './bench';
import { measureInTurns } from './measure';
import { machineLine, timingLines } from './report';

/** Of all data; any number would do, as long as it stays. */
const SEED = 20_261_125;

async function findBenches(): Promise<Bench[]> {
  const here = import.meta.dirname;
  const files = readdirSync(here, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.bench.ts'))
    .sort();
  const found: Bench[] = [];
  for (const file of files) {
    const module: unknown = await import(pathToFileURL(path.join(here, file)).href);
    const { benches } = module as { benches?: readonly Bench[] };
    if (!benches) throw new Error(`${file}: exports no benches`);
    found.push(...benches);
  }
  return found;
}

async function runBench(bench: Bench): Promise<void> {
  const prepared = await bench.prepare(SEED);
  const subjects = [prepared.ours, ...(prepared.others ?? [])];
  if (prepared.requireAgreement) {
    const results: unknown[] = [];
    for (const subject of subjects) results.push(await subject.run());
    prepared.requireAgreement(results);
  }
  const timings = await measureInTurns(subjects, {
    repeats: bench.repeats ?? 15,
    warmups: bench.warmups ?? 3,
    now: () => performance.now(),
  });
  console.log(`\n${bench.name}`);
  console.log(`  ${prepared.data}; seed ${SEED}`);
  for (const line of timingLines(timings)) console.log(line);
  await prepared.tidyUp?.();
}

const words = process.argv.slice(2).map((word) => word.toLowerCase());
const all = await findBenches();
const chosen = all.filter(
  ({ name }) => words.length === 0 || words.some((word) => name.toLowerCase().includes(word)),
);
if (chosen.length === 0) {
  console.error(
    `No benchmark of that name. There are: ${all.map(({ name }) => name).join('; ') || 'none'}`,
  );
  process.exitCode = 1;
} else {
  console.log(machineLine(new Date()));
  for (const bench of chosen) await runBench(bench);
}
