/** Find's order of results on the judged questions, beside lunr and minisearch over the same documents. */
import type { Bench } from '../bench';
import { demoDocuments } from './demo-documents';
import { find, miniSearch, plainLunr } from './engines';
import { gradesOf, readJudged } from './judged';
import { qualityOf, type Engine } from './quality';

function prepare() {
  const demo = demoDocuments();
  const documents = demo.map(({ document }) => document);
  const questions = readJudged()
    .map((judged) => ({ ...judged, grades: gradesOf(judged, demo) }))
    // Where the demo was made anew, a record that was sought may be gone.
    .filter(({ grades }) => [...grades.values()].includes(3));
  const engines: readonly Engine[] = [
    find(documents),
    plainLunr(documents, false),
    plainLunr(documents, true),
    miniSearch(documents, false),
    miniSearch(documents, true),
  ];
  const sorts = ['known', 'topic'] as const;

  function print(): void {
    const width = Math.max(...engines.map(({ label }) => label.length));
    for (const sort of [...sorts, 'all'] as const) {
      const asked = questions.filter((one) => sort === 'all' || one.sort === sort);
      console.log(`  ${sort}: ${asked.length} questions`);
      console.log(`  ${''.padEnd(width)}       MRR   NDCG@10   in first 10`);
      for (const engine of engines) {
        const { meanReciprocalRank, gainAt10, foundIn10 } = qualityOf(engine, asked);
        const figures = [meanReciprocalRank, gainAt10, foundIn10].map((x) => x.toFixed(3));
        console.log(
          `  ${engine.label.padEnd(width)}  ${figures.map((x) => x.padStart(9)).join(' ')}`,
        );
      }
    }
  }

  return {
    data: `${documents.length} records of the demo, ${questions.length} judged questions of ${readJudged().length}`,
    ours: { label: 'all questions to all engines', run: print },
  };
}

export const benches: readonly Bench[] = [
  { name: 'find-quality: judged questions to the demo', prepare, repeats: 1, warmups: 0 },
];
