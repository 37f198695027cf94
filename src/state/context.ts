/** How components find the state: set once by the app, read anywhere below it. */
import { createContext } from 'svelte';
import type { Beginnings } from './beginnings.svelte';
import type { DeviceValues } from './device-values';
import type { Importer } from './importer.svelte';
import type { Notices } from './notices.svelte';
import type { Roots } from './roots.svelte';
import type { Workspace } from './workspace.svelte';

export interface AppState {
  readonly workspace: Workspace;
  readonly roots: Roots;
  readonly notices: Notices;
  readonly beginnings: Beginnings;
  readonly importer: Importer;
  readonly deviceValues: DeviceValues;
}

export const [requireApp, provideApp] = createContext<AppState>();
