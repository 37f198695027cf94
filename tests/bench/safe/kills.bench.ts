/** The browser killed over two hundred times while the app works: throws if anything is lost. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { randomFrom } from '../../../src/engine/numeric/random';
import { ensureBuilt } from '../../../src/serve/ensure-built.mjs';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { activities, killMigrating, killWhile, type KillOptions } from '../../browser/faults/kills';
import { requireBrowser } from '../../browser/harness/chromium';
import type { Bench } from '../bench';

/** Six activities of so many are 204. */
const killsEach = 34;

/** One bench for each activity, so that each takes a few minutes and can be run by its name. */
function benchOf(
  name: string,
  kill: (options: KillOptions) => ReturnType<typeof killWhile>,
): Bench {
  return {
    name: `safe: kills while ${name}`,
    repeats: 1,
    warmups: 0,
    prepare: async (seed) => {
      const built = await ensureBuilt(PROJECT_ROOT, () => undefined);
      if (built.kind === 'failed') throw new Error(built.message);
      const choice = await requireBrowser(PROJECT_ROOT);
      const server = await serveFolder(path.join(PROJECT_ROOT, 'dist'));
      const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-kills-'));
      const random = randomFrom(seed);
      return {
        data: `${killsEach} kills`,
        ours: {
          label: 'all of them',
          run: async () => {
            const report = await kill({
              url: server.url,
              choice,
              kills: killsEach,
              random: () => random.uniform(),
              makeProfile: () => mkdtemp(path.join(folder, 'profile-')),
              say: (line) => process.stderr.write(`  ${line}\n`),
            });
            console.log(
              `  ${name}: ${report.kills} kills, ${report.midWork} in mid-work, ` +
                `${report.acknowledged} acknowledged saves, ${report.wrong.length} wrong, ` +
                `${report.begunAgain} rounds begun again`,
            );
            if (report.wrong.length > 0) throw new Error(report.wrong.join('\n'));
            return report;
          },
        },
        tidyUp: async () => {
          await server.close();
          await rm(folder, { recursive: true, force: true, maxRetries: 5 });
        },
      };
    },
  };
}

export const benches: readonly Bench[] = [
  ...activities.map((activity) => benchOf(activity, (options) => killWhile([activity], options))),
  benchOf('migrating', killMigrating),
];
