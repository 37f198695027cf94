/** Before the journeys: the app is built, a browser is ready, and the build is being served. */
import path from 'node:path';
import type { TestProject } from 'vitest/node';
import { ensureBuilt } from '../../../src/serve/ensure-built.mjs';
import { PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { serveFolder } from '../../../src/serve/static-server.mjs';
import { requireBrowser, type BrowserChoice } from './chromium';
import { makeDemoProfile } from './demo-profile';

declare module 'vitest' {
  export interface ProvidedContext {
    /** address of the built app, ending in a slash */
    appUrl: string;
    /** folder of the build, for a test that serves it itself in order to stop serving it */
    distFolder: string;
    browserChoice: BrowserChoice;
    /** folder of a profile in which the demo is loaded, to be copied and not opened */
    demoProfile: string;
  }
}

export default async function setUp(project: TestProject): Promise<() => Promise<void>> {
  const say = (line: string): void => void process.stderr.write(`${line}\n`);
  const built = await ensureBuilt(PROJECT_ROOT, say);
  if (built.kind === 'failed') throw new Error(built.message);
  const distFolder = path.join(PROJECT_ROOT, 'dist');
  const browserChoice = await requireBrowser(PROJECT_ROOT);
  const server = await serveFolder(distFolder);
  project.provide('appUrl', server.url);
  project.provide('distFolder', distFolder);
  project.provide('browserChoice', browserChoice);
  const demo = await makeDemoProfile(server.url, browserChoice);
  project.provide('demoProfile', demo.folder);
  return async () => {
    await server.close();
    await demo.remove();
  };
}
