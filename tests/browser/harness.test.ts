/** The harness itself, on a page of its own: it must see each sort of fault. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serveFolder, type RunningServer } from '../../src/serve/static-server.mjs';
import { axeViolations } from './harness/axe';
import { makeProfile, openApp, PHONE, type OpenedApp } from './harness/open-app';

let folder = '';
let server: RunningServer;

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-harness-'));
  const page = (body: string): string =>
    `<!doctype html><html lang="en"><title>Page</title><link rel="icon" href="data:,"><main><h1>Page</h1>${body}</main></html>`;
  await writeFile(path.join(folder, 'index.html'), page('<script src="./store.js"></script>'));
  await writeFile(path.join(folder, 'inline.html'), page('<script>window.ran = true</script>'));
  await writeFile(path.join(folder, 'poor.html'), page('<img src="data:,">'));
  await writeFile(
    path.join(folder, 'store.js'),
    `window.write = (value) => new Promise((resolve, reject) => {
      const opening = indexedDB.open('kept', 1);
      opening.onupgradeneeded = () => opening.result.createObjectStore('values');
      opening.onsuccess = () => {
        const tx = opening.result.transaction('values', 'readwrite', { durability: 'strict' });
        const store = tx.objectStore('values');
        const before = store.get(1);
        if (value !== undefined) store.put(value, 1);
        tx.oncomplete = () => resolve(before.result);
      };
      opening.onerror = () => reject(opening.error);
    });`,
  );
  server = await serveFolder(folder);
});
afterAll(async () => {
  await server.close();
  await rm(folder, { recursive: true });
});

/** Takes the faults out, so that the test which made them does not fail for them. */
function takeFaults(app: OpenedApp): string[] {
  return (app.faults as string[]).splice(0);
}

/** Runs a script in the page, and gives the browser a moment to report on it. */
async function evaluate(app: OpenedApp, script: string): Promise<unknown> {
  const result = await app.page.evaluate(script);
  await app.page.evaluate('new Promise((r) => setTimeout(r, 50))');
  return result;
}

describe('the harness', () => {
  it('opens a page as the reader set up the browser', async () => {
    const app = await openApp({
      url: server.url,
      viewport: PHONE,
      colorScheme: 'dark',
      locale: 'de-AT',
      timezoneId: 'Asia/Tokyo',
    });
    const seen = await evaluate(
      app,
      `[navigator.language, Intl.DateTimeFormat().resolvedOptions().timeZone, innerWidth,
        matchMedia('(prefers-color-scheme: dark)').matches, isSecureContext]`,
    );
    expect(seen).toEqual(['de-AT', 'Asia/Tokyo', PHONE.width, true, true]);
    expect(app.requests).toContain(`${server.url}store.js`);
  });

  it('hears page errors, console errors and promises nobody caught', async () => {
    const app = await openApp({ url: server.url });
    await evaluate(app, `setTimeout(() => { throw new Error('thrown late') }); 0`);
    await evaluate(app, `console.error('said aloud')`);
    await evaluate(app, `void Promise.reject(new Error('not caught'))`);
    const faults = takeFaults(app).join('\n');
    for (const words of ['thrown late', 'said aloud', 'not caught'])
      expect(faults).toContain(words);
  });

  it('sees that the policy stops inline scripts and requests to other addresses', async () => {
    const app = await openApp({ url: server.url, place: 'inline.html' });
    expect(await evaluate(app, 'window.ran')).toBeUndefined();
    expect(takeFaults(app).join('\n')).toContain('Content Security Policy');
    await evaluate(app, `fetch('https://example.org/x').catch(() => 0)`);
    expect(takeFaults(app).join('\n')).toContain('https://example.org/x');
  });

  it('reports a link that leads away', async () => {
    const app = await openApp({ url: server.url });
    await app.page.goto('http://127.0.0.1:9/').catch(() => undefined);
    expect(takeFaults(app).join('\n')).toContain('request to another address: http://127.0.0.1:9/');
  });

  it('runs the accessibility check under the policy, and can find something', async () => {
    const app = await openApp({ url: server.url });
    expect(await axeViolations(app.page)).toEqual([]);
    await app.page.goto(`${server.url}poor.html`);
    expect((await axeViolations(app.page)).join('\n')).toContain('image-alt (critical)');
  });

  it('keeps what was stored through a hard kill, in the same profile only', async () => {
    const profileFolder = await makeProfile();
    const app = await openApp({ url: server.url, profileFolder });
    await evaluate(app, `write('typed just now')`);
    await app.kill();
    const again = await openApp({ url: server.url, profileFolder });
    expect(await evaluate(again, 'write()')).toBe('typed just now');
    const other = await openApp({ url: server.url });
    expect(await evaluate(other, 'write()')).toBeUndefined();
  });
});
