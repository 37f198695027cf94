/** How components find the state: set once by the app, read anywhere below it. */
import { createContext } from 'svelte';
import type { Beginnings } from './beginnings.svelte';
import type { Finder } from './find.svelte';
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
  /** Find's index and worker, started when first asked for. */
  readonly finder: () => Promise<Finder>;
}

export const [requireApp, provideApp] = createContext<AppState>();
