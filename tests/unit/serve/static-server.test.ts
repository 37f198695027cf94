import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  ALIVE_PATH,
  parseRequestPath,
  serveFolder,
  type RunningServer,
} from '../../../src/serve/static-server.mjs';

interface Answer {
  status: number | undefined;
  headers: NodeJS.Dict<string | string[]>;
  body: string;
}

let parent = '';
let server: RunningServer;

/** Sends the path as it stands: `fetch` would tidy `..` away before the server could see it. */
function ask(
  target: string,
  options: { method?: string; headers?: Record<string, string> } = {},
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(
      { host: '127.0.0.1', port: server.port, path: target, agent: false, ...options },
      (response) => {
        let body = '';
        response.on('data', (chunk) => (body += String(chunk)));
        response.on('end', () =>
          resolve({ status: response.statusCode, headers: response.headers, body }),
        );
      },
    );
    asked.on('error', reject);
    asked.end();
  });
}

beforeAll(async () => {
  parent = mkdtempSync(path.join(tmpdir(), 'hypocentre-static-'));
  const folder = path.join(parent, 'dist');
  mkdirSync(path.join(folder, 'assets'), { recursive: true });
  mkdirSync(path.join(parent, 'dist-other'));
  writeFileSync(path.join(parent, 'secret.txt'), 'secret');
  writeFileSync(path.join(parent, 'dist-other', 'secret.txt'), 'secret');
  writeFileSync(path.join(folder, 'index.html'), '<p>front</p>');
  writeFileSync(path.join(folder, '.build.json'), 'secret');
  writeFileSync(path.join(folder, 'sw.js'), 'worker');
  writeFileSync(path.join(folder, 'assets', 'main-A_b-9xYz.js'), 'script');
  writeFileSync(path.join(folder, 'assets', 'serif-normal-Q1w2E3r4.woff2'), 'font');
  symlinkSync(path.join(parent, 'secret.txt'), path.join(folder, 'leak.txt'));
  symlinkSync(path.join(parent, 'dist-other'), path.join(folder, 'leaks'));
  server = await serveFolder(folder, {
    identity: { app: 'hypocentre', version: '9.8.7', copy: 'abc' },
  });
});
afterAll(async () => {
  await server.close();
  rmSync(parent, { recursive: true });
});

describe('the static server', () => {
  it('serves the front page, asked for anew each time', async () => {
    const page = await ask('/?x=1');
    expect(page).toMatchObject({ status: 200, body: '<p>front</p>' });
    expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(page.headers['cache-control']).toBe('no-cache');
  });

  it.each([
    ['/assets/main-A_b-9xYz.js', 'text/javascript; charset=utf-8'],
    ['/assets/serif-normal-Q1w2E3r4.woff2', 'font/woff2'],
  ])('lets %s be kept for ever, as %s', async (place, kind) => {
    const { headers } = await ask(place);
    expect(headers['content-type']).toBe(kind);
    expect(headers['cache-control']).toContain('immutable');
  });

  it('never lets a script without a hash in its name be kept', async () => {
    expect((await ask('/sw.js')).headers['cache-control']).toBe('no-cache');
  });

  it('answers HEAD with the headers and no body', async () => {
    const head = await ask('/', { method: 'HEAD' });
    expect(head).toMatchObject({ status: 200, body: '' });
    expect(head.headers['content-length']).toBe(String('<p>front</p>'.length));
  });

  it('says "not modified" to who has the file already', async () => {
    const tag = String((await ask('/')).headers['etag']);
    const again = await ask('/', { headers: { 'If-None-Match': tag } });
    expect(again).toMatchObject({ status: 304, body: '' });
  });

  it('has nothing at an unknown address, at a folder, or under a file', async () => {
    for (const place of ['/missing.js', '/assets', '/assets/', '/index.html/x']) {
      expect((await ask(place)).status, place).toBe(404);
    }
  });

  it('lets nobody write', async () => {
    const answer = await ask('/', { method: 'POST' });
    expect(answer.status).toBe(405);
    expect(answer.headers['allow']).toBe('GET, HEAD');
  });

  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e%5csecret.txt',
    '/..\\secret.txt',
    '/../dist-other/secret.txt',
    '/.build.json',
    '/%00',
    '/%',
    '/leak.txt',
    '/leaks/secret.txt',
    '//etc/passwd',
    '/C:/secret.txt',
  ])('gives nothing away at %s', async (place) => {
    const answer = await ask(place);
    expect([400, 404]).toContain(answer.status);
    expect(answer.body).not.toContain('secret');
  });

  it('sends the content security policy and its companions with every answer', async () => {
    for (const place of ['/', '/assets/main-A_b-9xYz.js', '/missing', '/%', ALIVE_PATH]) {
      const { headers } = await ask(place);
      const policy = String(headers['content-security-policy']);
      expect(policy).toContain("default-src 'self'");
      expect(policy).toContain("script-src 'self';");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['referrer-policy']).toBe('no-referrer');
    }
  });

  it('refuses a name that is not its own, so no foreign name can be pointed here', async () => {
    for (const host of ['evil.example', `evil.example:${server.port}`, '127.0.0.1:1']) {
      expect((await ask('/', { headers: { Host: host } })).status, host).toBe(403);
    }
  });

  it('sends localhost on to the one address the log belongs to', async () => {
    const answer = await ask('/index.html?a=b', {
      headers: { Host: `localhost:${server.port}` },
    });
    expect(answer.status).toBe(307);
    expect(answer.headers['location']).toBe(`${server.url}index.html?a=b`);
  });

  it('says which app and version it is', async () => {
    expect(JSON.parse((await ask(ALIVE_PATH)).body)).toEqual({
      app: 'hypocentre',
      version: '9.8.7',
      copy: 'abc',
    });
  });

  it('cannot be reached from another machine', async ({ skip }) => {
    const outward = Object.values(networkInterfaces())
      .flat()
      .find((address) => address && !address.internal && address.family === 'IPv4');
    if (!outward) skip('this machine has no outward address');
    const outcome = await new Promise((resolve) => {
      const socket = connect(server.port, outward?.address ?? '');
      socket.once('connect', () => resolve('connected'));
      socket.once('error', (error: NodeJS.ErrnoException) => resolve(error.code));
    });
    expect(outcome).toBe('ECONNREFUSED');
  });
});

describe('reading the path of a request', () => {
  it('decodes names and drops the query', () => {
    expect(parseRequestPath('/assets/a%20b.js?x=1#y')).toBe('/assets/a b.js');
    expect(parseRequestPath('/')).toBe('/index.html');
  });

  it('refuses what is no path of the app', () => {
    for (const target of ['', 'x', 'http://evil.example/', '/a/../b', '/.git/config', '/%E0']) {
      expect(parseRequestPath(target), target).toBeUndefined();
    }
  });
});
