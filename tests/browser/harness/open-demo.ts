/** Opens the app with the demo in it, without loading the demo anew each time. */
import { cp } from 'node:fs/promises';
import { inject } from 'vitest';
import { makeProfile, openApp, type OpenedApp, type OpenOptions } from './open-app';

export interface OpenedDemo extends OpenedApp {
  /** the app's address without what names a screen, for `page.goto` */
  readonly address: string;
}

/**
 * Opens a copy of a profile in which the demo was once loaded, so that what a test
 * changes is its own.
 *
 * @example
 * const { page, address } = await openDemo({ place: '#/map', viewport: PHONE });
 */
export async function openDemo(options: OpenOptions = {}): Promise<OpenedDemo> {
  const profileFolder = await makeProfile();
  await cp(inject('demoProfile'), profileFolder, { recursive: true, force: true });
  const opened = await openApp({ place: '#/roots', ...options, profileFolder });
  await opened.page.getByRole('note').filter({ hasText: 'All of it is invented' }).waitFor();
  return { ...opened, address: opened.page.url().replace(/#.*$/, '') };
}
