/** A large map made from a seed: for the benches of layout and drawing. */
import type { SectionConcept } from '../../../src/engine';
import { randomFrom } from '../../../src/engine/numeric/random';

/** 14 systems; links from a concept to later ones nearby. */
export function largeMap(seed: number, conceptCount = 2000, linkCount = 5000) {
  const random = randomFrom(seed);
  const below = (bound: number) => Math.floor(random.uniform() * bound);
  const systems = Array.from({ length: 14 }, (_, k) => `system-${k}`);
  const links = Array.from({ length: conceptCount }, () => new Set<string>());
  for (let made = 0; made < linkCount;) {
    const from = below(conceptCount - 1);
    const to = from + 1 + below(Math.min(400, conceptCount - 1 - from));
    const before = links[from]!.size;
    links[from]!.add(`c${to}`);
    made += links[from]!.size - before;
  }
  const concepts = links.map((set, i): SectionConcept => ({
    id: `c${i}`,
    systems: systems.filter(() => below(14) < 2),
    restsOn: [...set],
    traced: below(20) === 0 ? below(12) : 0,
  }));
  return { systems, concepts };
}
