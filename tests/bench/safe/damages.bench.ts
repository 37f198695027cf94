/** Backups damaged many thousand times: throws if one crashes, comes back changed or loses in silence. */
import fc from 'fast-check';
import { randomFrom } from '../../../src/engine/numeric/random';
import { writeBackup } from '../../../src/formats/backup/write-backup';
import { backups } from '../../unit/formats/backup/content';
import { damaged, damages, wrongWith } from '../../unit/formats/backup/damage';
import type { Bench } from '../bench';

const damagesOfEach = 300;
const backupCount = 6;

const damageBench: Bench = {
  name: 'safe: damaged backups',
  repeats: 1,
  warmups: 0,
  prepare: (seed) => {
    const contents = fc.sample(backups(30), { numRuns: backupCount, seed });
    const random = randomFrom(seed);
    const draw = (below: number) => Math.floor(random.uniform() * Math.max(1, below));
    const files = contents.map((content) => ({ content, file: writeBackup(content) }));
    const sizes = files.map(({ file }) => file.length);
    return {
      data: `${backupCount} backups of ${Math.min(...sizes)} to ${Math.max(...sizes)} bytes, ${damagesOfEach * backupCount * damages.length} damages of ${damages.length} sorts`,
      ours: {
        label: 'read all of them',
        run: async () => {
          for (const { content, file } of files) {
            for (const damage of damages) {
              for (let run = 0; run < damagesOfEach; run++) {
                const wrong = await wrongWith(damaged(file, damage, draw), content);
                if (wrong !== undefined) throw new Error(`${damage}, run ${run}: ${wrong}`);
              }
            }
            // And cut at every place, not only at random ones.
            for (let end = 0; end < file.length; end += 7) {
              const wrong = await wrongWith(file.subarray(0, end), content);
              if (wrong !== undefined) throw new Error(`cut at ${end}: ${wrong}`);
            }
          }
        },
      },
    };
  },
};

export const benches: readonly Bench[] = [damageBench];
