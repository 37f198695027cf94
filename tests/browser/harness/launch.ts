/** Starts a browser on a profile, and ends it as a crash would. Needs no test runner. */
import { chromium, type BrowserContext } from 'playwright-core';
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

export function launch(
  { env, ...choice }: BrowserChoice,
  profileFolder: string,
  options: LaunchOptions = {},
): Promise<BrowserContext> {
  return chromium.launchPersistentContext(profileFolder, {
    ...choice,
    args: FLAGS,
    env: { ...process.env, ...env },
    viewport: options.viewport ?? { width: 1280, height: 800 },
    colorScheme: options.colorScheme ?? 'light',
    reducedMotion: options.reducedMotion ?? 'no-preference',
    locale: options.locale ?? 'en-GB',
    timezoneId: options.timezoneId ?? 'Europe/London',
    hasTouch: options.touch ?? false,
    serviceWorkers: options.serviceWorkers ?? 'block',
    acceptDownloads: true,
  });
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
  for (const { id } of mainFirst) {
    try {
      process.kill(id, 'SIGKILL');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error; // it went by itself
    }
  }
  await closed;
}
