/** The browser killed over two hundred times while the app works: throws if anything is lost. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { randomFrom } from '../../../src/engine/numeric/random';
import { ensureBuilt } from '../../../src/serve/ensure-built.mjs';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { activities, killWhile, type KillReport } from '../../browser/faults/kills';
import { requireBrowser } from '../../browser/harness/chromium';
import type { Bench } from '../bench';

const killsEach = 52;

const kills: Bench = {
  name: 'safe: kills while logging, importing, bringing a backup in, migrating',
  repeats: 1,
  warmups: 0,
  prepare: async (seed) => {
    const built = await ensureBuilt(PROJECT_ROOT, () => undefined);
    if (built.kind === 'failed') throw new Error(built.message);
    const choice = await requireBrowser(PROJECT_ROOT);
    const server = await serveFolder(path.join(PROJECT_ROOT, 'dist'));
    const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-kills-'));
    return {
      data: `${killsEach * activities.length} kills, ${killsEach} in each of ${activities.length} activities`,
      ours: {
        label: 'all of them',
        run: async () => {
          const reports: KillReport[] = [];
          for (const [i, activity] of activities.entries()) {
            const random = randomFrom(seed + i);
            const report = await killWhile({
              url: server.url,
              choice,
              activity,
              kills: killsEach,
              random: () => random.uniform(),
              makeProfile: () => mkdtemp(path.join(folder, 'profile-')),
              say: (line) => process.stderr.write(`  ${line}\n`),
            });
            console.log(
              `  ${activity}: ${report.kills} kills, ${report.midWork} in mid-work, ` +
                `${report.acknowledged} acknowledged saves, ${report.wrong.length} wrong`,
            );
            reports.push(report);
          }
          const wrong = reports.flatMap((report) => report.wrong);
          if (wrong.length > 0) throw new Error(wrong.join('\n'));
          return reports;
        },
      },
      tidyUp: async () => {
        await server.close();
        await rm(folder, { recursive: true, force: true, maxRetries: 5 });
      },
    };
  },
};

export const benches: readonly Bench[] = [kills];
