/** The screens and their addresses; those of the rail are listed in `rail.ts`. */
import type { Component } from 'svelte';
import { wrap } from 'svelte-spa-router/wrap';
import AllScreens from './AllScreens.svelte';
import NotFoundScreen from './NotFoundScreen.svelte';
import UnfetchedScreen from './UnfetchedScreen.svelte';

type Screen = Component<{ params?: Record<string, string> | null }>;

/**
 * A screen fetched when first opened; if that fails, a screen that says so. The router's own
 * loading component is not used: it would stay for ever where the address changes meanwhile.
 */
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
  });

export const routes = {
  '/': screen(() => import('../screens/today/TodayPage.svelte')),
  '/today': screen(() => import('../screens/today/TodayPage.svelte')),
  '/log': screen(() => import('../screens/log/LogPage.svelte')),
  '/log/bring-in': screen(() => import('../screens/bring-in/BringInScreen.svelte')),
  '/log/block/:block/:item?': screen(() => import('../screens/log/BlockPage.svelte')),
  '/roots/:concept?': screen(() => import('../screens/roots/RootsPage.svelte')),
  '/safekeeping': screen(() => import('../screens/safekeeping/SafekeepingPage.svelte')),
  '/sheet/new': screen(() => import('../screens/sheet/NewLinePage.svelte')),
  '/sheet/page': screen(() => import('../screens/sheet/PrintedPage.svelte')),
  '/sheet/rehearse': screen(() => import('../screens/sheet/RehearsePage.svelte')),
  // `/sheet` and `/sheet/line/<id>`: one route, so that opening a line does not make the list anew.
  '/sheet/:open?/:line?': screen(() => import('../screens/sheet/SheetPage.svelte')),
  '/trends': screen(() => import('../screens/trends/TrendsPage.svelte')),
  '/trends/days': screen(() => import('../screens/trends/DaysPage.svelte')),
  '/reading': screen(() => import('../screens/reading/ReadingPage.svelte')),
  '/looks': screen(() => import('../screens/looks/LooksPage.svelte')),
  '/map': screen(() => import('../screens/map/MapPage.svelte')),
  '/concept/:concept': screen(() => import('../screens/concept/ConceptPage.svelte')),
  '/find': screen(() => import('../screens/find/FindPage.svelte')),
  '/notes': screen(() => import('../screens/notes/NotesPage.svelte')),
  '/note/:note': screen(() => import('../screens/notes/NotePage.svelte')),
  '/method': screen(() => import('../screens/method/MethodPage.svelte')),
  '/screens': AllScreens,
  '/about': screen(() => import('../screens/about/AboutPage.svelte')),
  '*': NotFoundScreen,
};
