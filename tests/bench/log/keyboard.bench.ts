/** A block of forty with twelve misses, marked and reviewed by keyboard alone, in a real browser: keys beyond the text. */
import {
  markByKeyboard,
  reviewByKeyboard,
  twelveMisses,
  type ReviewedMiss,
} from '../../browser/keyboard-review';
import type { Bench } from '../bench';
import { serveApp } from '../whole/year';

const turn = { option: 'B', turn: 'It would be the key if the value were low.' };

/** The review as in the test, then once more with an option turn for each miss. */
const rounds: readonly { readonly what: string; readonly misses: readonly ReviewedMiss[] }[] = [
  { what: 'topic, missing piece, cause, reason', misses: twelveMisses },
  {
    what: 'the same and one option turn each',
    misses: twelveMisses.map((miss) => ({ ...miss, turns: [turn] })),
  },
];

async function prepare() {
  const app = await serveApp();
  const page = await app.openPage();
  const { url } = app;
  await page.getByRole('button', { name: /^Begin with the starter map/ }).click();
  await page.getByRole('navigation', { name: 'Screens' }).waitFor();
  return {
    data: `40 items, ${twelveMisses.length} misses; keys held together count each; aim: at most 12 a miss`,
    ours: {
      label: 'both blocks, as quickly as the script types',
      run: async () => {
        for (const { what, misses } of rounds) {
          await page.goto(`${url}#/log`);
          const marking = await markByKeyboard(
            page,
            misses.map(({ item }) => item),
          );
          const { keys, letters } = await reviewByKeyboard(page, misses);
          const aMiss = (count: number) => (count / misses.length).toFixed(1);
          console.log(
            `  ${what}: ${keys} keys beyond the text, ${aMiss(keys)} a miss ` +
              `(${aMiss(letters)} of them letters to find concepts); ` +
              `${marking} keys more for a new block and its marks`,
          );
        }
      },
    },
    tidyUp: app.tidyUp,
  };
}

export const benches: readonly Bench[] = [
  { name: 'log: a block of forty reviewed by keyboard', prepare, repeats: 1, warmups: 0 },
];
