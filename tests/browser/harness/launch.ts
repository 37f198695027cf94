/** Starts a browser on a profile, and ends it as a crash would. Needs no test runner. */
import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
} from 'playwright-core';
import type { BrowserChoice } from './chromium';

export interface LaunchOptions {
  /** px; 1280 x 800 by default */
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: 'light' | 'dark';
  readonly reducedMotion?: 'reduce' | 'no-preference';
  readonly locale?: string;
  /** an IANA name; the default has summer time, so that days of 23 and 25 hours happen */
  readonly timezoneId?: string;
  readonly touch?: boolean;
  /** `allow` where use without the server is what is tested; else each test sees its server */
  readonly serviceWorkers?: 'allow' | 'block';
}

/** Not the package's own list, which turns off the very protections the app relies on. */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  // A page that tries to reach another machine fails, besides being reported.
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1',
];

/** A killed browser's lock on its profile can outlive it for a moment; the next one then ends at once. */
const mostAttempts = 4;

export async function launch(
  choice: BrowserChoice,
  profileFolder: string,
  options: LaunchOptions = {},
): Promise<BrowserContext> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await launchOnce(choice, profileFolder, options);
    } catch (error) {
      if (!endedByItself(error) || attempt === mostAttempts) throw error;
      await new Promise((resolve) => setTimeout(resolve, 500 * attempt));
    }
  }
}

/** Whether an error says that the browser went away while it was being driven. */
export function endedByItself(error: unknown): boolean {
  return (
    error instanceof Error &&
    /(page, context or browser|browser) has been closed|Target crashed|Page crashed/i.test(
      error.message,
    )
  );
}

function launchOnce(
  { env, ...choice }: BrowserChoice,
  profileFolder: string,
  options: LaunchOptions,
): Promise<BrowserContext> {
  return chromium.launchPersistentContext(profileFolder, {
    ...choice,
    args: FLAGS,
    env: { ...process.env, ...env },
    ...setUp(options),
  });
}

/** A browser in which profiles are made with `contextOf`; they are private and gone once closed. */
export function launchShared({ env, ...choice }: BrowserChoice): Promise<Browser> {
  return chromium.launch({ ...choice, args: FLAGS, env: { ...process.env, ...env } });
}

export function contextOf(browser: Browser, options: LaunchOptions): Promise<BrowserContext> {
  return browser.newContext(setUp(options));
}

/** The reader's own settings of the browser. */
function setUp(options: LaunchOptions): BrowserContextOptions {
  return {
    viewport: options.viewport ?? { width: 1280, height: 800 },
    colorScheme: options.colorScheme ?? 'light',
    reducedMotion: options.reducedMotion ?? 'no-preference',
    locale: options.locale ?? 'en-GB',
    timezoneId: options.timezoneId ?? 'Europe/London',
    hasTouch: options.touch ?? false,
    serviceWorkers: options.serviceWorkers ?? 'block',
    acceptDownloads: true,
  };
}

/** Ends every process of the browser at once, as a crash or a dead battery would. */
export async function killBrowser(context: BrowserContext): Promise<void> {
  const browser = context.browser();
  if (!browser) throw new Error('killBrowser: this context has no browser to ask');
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  const closed = new Promise((resolve) => context.once('close', resolve));
  // The main process first, so that it cannot tidy up after the others.
  const mainFirst = processInfo.toSorted(
    (a, b) => Number(b.type === 'browser') - Number(a.type === 'browser'),
  );
  for (const { id } of mainFirst) sendTo(id, 'SIGKILL');
  await closed;
  // Until they are gone from the table of processes, the profile counts as in use.
  const gone = () => processInfo.every(({ id }) => !sendTo(id, 0));
  for (let waited = 0; !gone() && waited < 5_000; waited += 20) {
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

/** False where there is no such process any more. */
function sendTo(id: number, signal: 'SIGKILL' | 0): boolean {
  try {
    process.kill(id, signal);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false; // it went by itself
    throw error;
  }
}
