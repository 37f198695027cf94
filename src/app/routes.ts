/** The screens: their addresses, and which of them stand in the rail. */
import type { Component } from 'svelte';
import { wrap } from 'svelte-spa-router/wrap';
import LoadingScreen from './LoadingScreen.svelte';
import NotFoundScreen from './NotFoundScreen.svelte';
import UnfetchedScreen from './UnfetchedScreen.svelte';

export interface RailEntry {
  readonly path: string;
  readonly name: string;
  /** What the screen answers, in a few words. */
  readonly says: string;
}

/** In the order of a candidate's day. */
export const rail: readonly RailEntry[] = [
  { path: '/log', name: 'Log', says: 'what happened in a block' },
  { path: '/roots', name: 'Roots', says: 'what lies under the misses' },
  { path: '/about', name: 'About', says: 'cautions, data and settings' },
];

type Screen = Component<{ params?: Record<string, string> | null }>;

/** A screen fetched when first opened; if that fails, a screen that says so. */
const screen = (load: () => Promise<{ default: unknown }>) =>
  wrap({
    asyncComponent: async () => {
      try {
        return (await load()) as { default: Screen };
      } catch {
        // The server is gone or holds another version; the browser keeps the failure until a reload.
        return { default: UnfetchedScreen as Screen };
      }
    },
    loadingComponent: LoadingScreen,
  });

export const routes = {
  '/': screen(() => import('../screens/log/LogPage.svelte')),
  '/log': screen(() => import('../screens/log/LogPage.svelte')),
  '/log/bring-in': screen(() => import('../screens/bring-in/BringInPage.svelte')),
  '/log/block/:block/:item?': screen(() => import('../screens/log/BlockPage.svelte')),
  '/roots/:concept?': screen(() => import('../screens/roots/RootsPage.svelte')),
  '/about': screen(() => import('../screens/about/AboutPage.svelte')),
  '*': NotFoundScreen,
};
