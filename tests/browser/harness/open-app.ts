/** Opens the app in a real browser, listens for anything that goes wrong, and can kill it hard. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, inject, onTestFinished } from 'vitest';
import { cacheFolder, PROJECT_ROOT } from '../../../src/serve/project.mjs';
import { contextOf, killBrowser, launch, launchShared, type LaunchOptions } from './launch';

export interface OpenOptions extends LaunchOptions {
  /** address to open; the served build by default */
  readonly url?: string;
  /** what follows the address, such as '#/roots' */
  readonly place?: string;
  /** Runs in every page before its own scripts. */
  readonly before?: () => void;
  /**
   * from `makeProfile`: a browser of its own, that can be killed and its profile opened again. By
   * default a fresh private profile in a browser that the tests of a file share
   */
  readonly profileFolder?: string;
}

export interface OpenedApp {
  readonly page: Page;
  readonly context: BrowserContext;
  /** what went wrong so far: page errors, console errors, requests that left the app's address */
  readonly faults: readonly string[];
  /** addresses asked for so far, of every page and worker */
  readonly requests: readonly string[];
  /** ends the browser in good order; the profile can then be opened again */
  close(): Promise<void>;
  /** ends every process of the browser at once, as a crash or a dead battery would; of its own only */
  kill(): Promise<void>;
}

/** A browser starts in seconds, a profile in it in a fraction of one: the tests of a file share it. */
let shared: Promise<Browser> | undefined;
afterAll(async () => {
  await (await shared)?.close();
  shared = undefined;
});

async function sharedBrowser(): Promise<Browser> {
  const running = await shared;
  if (!running?.isConnected()) shared = launchShared(inject('browserChoice'));
  return (await shared) as Browser;
}

export const DESKTOP = { width: 1280, height: 800 };
export const PHONE = { width: 390, height: 844 };

/**
 * A fresh profile folder, removed when the test ends. For tests that reopen what they closed.
 */
export async function makeProfile(): Promise<string> {
  const folder = await mkdtemp(path.join(tmpdir(), 'hypocentre-profile-'));
  // A killed browser may write for a moment yet.
  onTestFinished(() => rm(folder, { recursive: true, force: true, maxRetries: 5 }));
  return folder;
}

/**
 * Opens the app in a profile of its own. To be called in a test: when the test ends the profile is
 * closed, and the test fails if there were faults that it did not take out of `faults` itself.
 * After a failed test a picture of the page is in the project's cache, under `failures`.
 *
 * @example
 * const { page } = await openApp({ viewport: PHONE, place: '#/roots' });
 */
export async function openApp(options: OpenOptions = {}): Promise<OpenedApp> {
  const url = options.url ?? inject('appUrl');
  const { profileFolder } = options;
  const wanted = { viewport: DESKTOP, ...options };
  const context =
    profileFolder === undefined
      ? await contextOf(await sharedBrowser(), wanted)
      : await launch(inject('browserChoice'), profileFolder, wanted);
  const faults: string[] = [];
  const requests: string[] = [];
  listen(context, new URL(url).origin, faults, requests);

  let open = true;
  context.once('close', () => (open = false));
  onTestFinished(async ({ task }) => {
    if (open && task.result?.state === 'fail') await takePicture(context, task.name);
    if (open) await context.close();
    if (faults.length > 0) throw new Error(`the page had faults:\n${faults.join('\n')}`);
  });

  if (options.before) await context.addInitScript(options.before);
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(url + (options.place ?? ''));
  return {
    page,
    context,
    faults,
    requests,
    close: () => context.close(),
    kill: () => {
      if (profileFolder === undefined) throw new Error('kill: got no profileFolder; need one');
      return killBrowser(context);
    },
  };
}

function listen(
  context: BrowserContext,
  origin: string,
  faults: string[],
  requests: string[],
): void {
  context.on('weberror', (fault) => faults.push(`page error: ${String(fault.error().stack)}`));
  context.on('console', (message) => {
    if (message.type() === 'error') faults.push(`console error: ${message.text()}`);
    // What Svelte warns of in the built app is a mistake of ours: a stale value, a lost binding.
    if (message.text().includes('svelte.dev/e/')) faults.push(`warning: ${message.text()}`);
  });
  const note = (address: string): void => {
    requests.push(address);
    if (leaves(origin, address)) faults.push(`request to another address: ${address}`);
  };
  context.on('request', (request) => note(request.url()));
  const listenToPage = (page: Page): void => {
    page.on('websocket', (socket) => note(socket.url()));
    page.on('crash', () => faults.push('the page crashed'));
  };
  context.pages().forEach(listenToPage);
  context.on('page', listenToPage);
}

/** True for an address outside the page itself and the app's own server. */
function leaves(origin: string, address: string): boolean {
  const target = new URL(address);
  return !['data:', 'blob:', 'about:'].includes(target.protocol) && target.origin !== origin;
}

async function takePicture(context: BrowserContext, testName: string): Promise<void> {
  const name = testName.replace(/[^\w]+/g, '-').slice(0, 80);
  const file = path.join(cacheFolder(PROJECT_ROOT), 'failures', `${name}.png`);
  await context.pages()[0]?.screenshot({ path: file, timeout: 5000 });
  process.stderr.write(`A picture of the page is in ${path.relative(PROJECT_ROOT, file)}\n`);
}
