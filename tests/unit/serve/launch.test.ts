import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer as createHttpServer } from 'node:http';
import { createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  findIdentityAt,
  findLanding,
  landingLines,
  USUAL_PORT,
} from '../../../src/serve/launch.mjs';
import { serveFolder, type Identity } from '../../../src/serve/static-server.mjs';

const mine: Identity = { app: 'hypocentre', version: '1.2.3', copy: 'mine' };
const theirs: Identity = { app: 'hypocentre', version: '1.0.0', copy: 'theirs' };
let folder = '';
const closers: (() => Promise<void>)[] = [];

/** Takes a port that is free now; the system hands them out well below the usual one or above. */
function takePort(server: Server): Promise<number> {
  return new Promise((resolve) => {
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      resolve(typeof address === 'object' && address ? address.port : 0);
    });
    closers.push(() => new Promise((done) => server.close(() => done())));
  });
}

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'hypocentre-launch-'));
  writeFileSync(path.join(folder, 'index.html'), 'front');
});
afterEach(async () => {
  for (const close of closers.splice(0)) await close();
  rmSync(folder, { recursive: true });
});

describe('finding a place to serve at', () => {
  it('moves past a port taken by a program that hangs up', async () => {
    const port = await takePort(createServer((socket) => socket.destroy()));
    const landing = await findLanding(folder, mine, port);
    if (landing.kind !== 'serving') throw new Error(`landed on ${landing.kind}`);
    closers.push(landing.server.close);
    expect(landing.server.port).toBeGreaterThan(port);
  });

  it('finds the app that is served there already, in place of a second one', async () => {
    const running = await serveFolder(folder, { identity: theirs });
    closers.push(running.close);
    expect(await findLanding(folder, mine, running.port)).toEqual({
      kind: 'already',
      url: running.url,
      identity: theirs,
    });
  });

  it('is not taken in by another web page on the port', async () => {
    for (const body of [
      '{"app":"other","version":"1","copy":"x"}',
      'null',
      '<p>',
      'x'.repeat(5e5),
    ]) {
      const port = await takePort(createHttpServer((_request, response) => response.end(body)));
      expect(await findIdentityAt(port), body.slice(0, 40)).toBeUndefined();
    }
  });
});

describe('what the person is told', () => {
  const usualUrl = `http://127.0.0.1:${USUAL_PORT}/`;
  const serving = (port: number) => ({
    kind: 'serving' as const,
    server: { url: `http://127.0.0.1:${port}/`, port, close: () => Promise.resolve() },
  });

  it('is the address and how to stop', () => {
    expect(landingLines(serving(USUAL_PORT), mine)).toEqual([
      `Hypocentre 1.2.3 is at ${usualUrl}`,
      'Press Ctrl-C to stop.',
    ]);
  });

  it('warns at another port that the log lives under the usual address', () => {
    const text = landingLines(serving(USUAL_PORT + 1), mine).join('\n');
    expect(text).toContain(`http://127.0.0.1:${USUAL_PORT + 1}/`);
    expect(text).toContain(`${usualUrl}, is taken by another program`);
    expect(text).toContain('does not show here');
  });

  it('tells this copy running already from another copy', () => {
    const already = (identity: Identity) =>
      landingLines({ kind: 'already', url: usualUrl, identity }, mine).join('\n');
    expect(already(mine)).toBe(`Hypocentre is running already, at ${usualUrl}`);
    expect(already(theirs)).toContain('Another copy of Hypocentre (version 1.0.0)');
  });
});
