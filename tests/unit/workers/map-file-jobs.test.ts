/** The map file worker's job, called directly. */
import { describe, expect, it } from 'vitest';
import { mapFileJobs } from '../../../src/workers/map-file-jobs';

const context = { progress: () => undefined, stopped: () => false };
const known = { concepts: [], disciplines: [], systems: [] };
const options = { language: 'en', broaderAsRestsOn: true };

describe('reading a SKOS file', () => {
  it('reads a foreign file of 12,000 concepts whole, each under the one its number halves to', async () => {
    const count = 12_000;
    const lines = ['@prefix s: <http://www.w3.org/2004/02/skos/core#> .'];
    for (let k = 1; k <= count; k++) {
      const broader = k === 1 ? '' : ` ; s:broader <http://example.org/${Math.floor(k / 2)}>`;
      lines.push(`<http://example.org/${k}> a s:Concept ; s:prefLabel "Term ${k}"@en${broader} .`);
    }
    const output = await mapFileJobs().readSkos(
      { text: lines.join('\n'), fileName: 'big.ttl', options, known },
      context,
    );
    if (output.kind === 'rejected') throw new Error(output.message);
    expect(output.met.concepts).toHaveLength(count);
    expect(output.met.concepts.flatMap(({ restsOn }) => restsOn)).toHaveLength(count - 1);
    expect(output.head).toMatchObject({ conceptCount: count, linkCount: count - 1, isOurs: false });
    expect(output.met.concepts[6_000]).toMatchObject({
      name: 'Term 6001',
      restsOn: [{ concept: 'http://example.org/3000' }],
    });
    expect(output.head.notes).toEqual([]);
    // Some seconds on a busy machine, for which the usual limit is too near.
  }, 60_000);

  it('says what is wrong with a file that holds no concept', async () => {
    const output = await mapFileJobs().readSkos(
      { text: '<urn:a> <urn:b> "c" .', fileName: 'x.ttl', options, known },
      context,
    );
    expect(output).toMatchObject({ kind: 'rejected' });
  });
});
