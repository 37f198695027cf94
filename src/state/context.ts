/** How components find the state: set once by the app, read anywhere below it. */
import { createContext } from 'svelte';
import type { BackupFolder } from './backup-folder.svelte';
import type { Beginnings } from './beginnings.svelte';
import type { DeviceValues } from './device-values';
import type { Finder } from './find.svelte';
import type { Importer } from './importer.svelte';
import type { Notices } from './notices.svelte';
import type { Roots } from './roots.svelte';
import type { Safekeeping } from './safekeeping.svelte';
import type { Updates } from './updates.svelte';
import type { Workspace } from './workspace.svelte';

/** What looks after backups; fetched once the first screen stands. */
export interface Keeping {
  readonly safekeeping: Safekeeping;
  readonly folder: BackupFolder;
}

export interface AppState {
  readonly workspace: Workspace;
  readonly roots: Roots;
  readonly notices: Notices;
  readonly beginnings: Beginnings;
  /** Reads files of results; fetched when first asked for, and one for the life of the page. */
  readonly importer: () => Promise<Importer>;
  readonly keeping: () => Promise<Keeping>;
  readonly deviceValues: DeviceValues;
  readonly updates: Updates;
  /** Find's index and worker, started when first asked for. */
  readonly finder: () => Promise<Finder>;
}

export const [requireApp, provideApp] = createContext<AppState>();
