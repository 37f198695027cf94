/** `npm run bench:roots`: how right each way of ranking is, on simulated candidates. */
import { cpus, release, type } from 'node:os';
import { readCommand, usage, type Command } from './command';
import { evaluate, meanOf, type Score } from './evaluate';
import { drawCandidate } from './generator/candidate';
import { caseOf } from './generator/log';
import { certaintyText, groupText, overviewText, type Group } from './print';
import { summarise } from './summary';
import type { Variant } from './variants';

/** Runs every method on every candidate of one variant at one size. */
async function runGroup(variant: Variant, itemCount: number, command: Command): Promise<Group> {
  const scoresOf = new Map<string, Score[]>(command.methods.map(({ name }) => [name, []]));
  const missCounts: number[] = [];
  let warm = false;
  for (const [place, seed] of command.seeds.entries()) {
    const candidate = drawCandidate(variant.recipe, seed);
    const given = caseOf(candidate, itemCount, variant.logging);
    missCounts.push(given.missCount);
    for (const method of command.methods) {
      if (method.name === 'sampler' && place >= command.sampled) continue;
      // Once for nothing, so that no method's first time includes its compilation.
      // The sampler takes seconds, of which that is next to nothing.
      if (!warm && method.name !== 'sampler') await method.run(given);
      scoresOf.get(method.name)!.push(await evaluate(method, given, candidate));
    }
    warm = true;
  }
  return {
    variant: variant.name,
    title: variant.title,
    itemCount,
    candidateCount: command.seeds.length,
    missCount: meanOf(missCounts),
    columns: command.methods.map(({ name, title }) => ({
      name,
      title,
      candidateCount: scoresOf.get(name)!.length,
      // Each is held against counting and ceiling on the candidates that it ran on itself.
      summary: summarise(
        scoresOf.get(name)!,
        scoresOf.get('count')?.slice(0, scoresOf.get(name)!.length),
        scoresOf.get('ceiling')?.slice(0, scoresOf.get(name)!.length),
      ),
    })),
  };
}

function machine(): string {
  const [first] = cpus();
  return `${first?.model ?? 'unknown processor'} (${cpus().length} cores), ${type()} ${release()}, Node ${process.version}`;
}

if (process.argv.includes('--help')) {
  console.log(usage);
} else {
  const command = readCommand(process.argv.slice(2));
  const heading = {
    date: new Date().toISOString().slice(0, 10),
    machine: machine(),
    seeds: `${command.seeds[0]}-${command.seeds.at(-1)}, the sampler on the first ${command.sampled}`,
  };
  if (!command.json) {
    console.log(`Roots benchmark, ${heading.date}; ${heading.machine}; seeds ${heading.seeds}\n`);
  }
  const groups: Group[] = [];
  for (const variant of command.variants) {
    for (const itemCount of command.sizes ?? variant.sizes) {
      const group = await runGroup(variant, itemCount, command);
      groups.push(group);
      if (!command.json) console.log(groupText(group));
    }
  }
  if (!command.json) console.log(`${overviewText(groups)}\n${certaintyText(groups)}`);
  else console.log(JSON.stringify({ ...heading, groups }, undefined, 1));
}
