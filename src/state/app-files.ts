/** The app's own files, kept by the browser so that all screens work without a network. */

/** Whether they were forgotten since this page was opened. */
let forgotten = false;

/** Has the browser keep them; undefined where it cannot or need not. */
export async function keepAppFiles(): Promise<ServiceWorkerRegistration | undefined> {
  // The development server changes its files at every save; only a build is kept.
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return undefined;
  try {
    return await navigator.serviceWorker.register(new URL('sw.js', document.baseURI));
  } catch {
    // Private windows may refuse it: the app works, only not without its server.
    return undefined;
  }
}

/** Removes them, and what brings them back. */
export async function forgetAppFiles(): Promise<void> {
  forgotten = true;
  const scope: { caches?: CacheStorage; navigator?: Partial<Navigator> } = globalThis;
  // Absent where the page is not served securely.
  for (const name of (await scope.caches?.keys()) ?? []) await scope.caches?.delete(name);
  for (const each of (await scope.navigator?.serviceWorker?.getRegistrations()) ?? [])
    await each.unregister();
}

/** Whoever begins anew after deleting everything shall be able to go on without a network too. */
export function keepAppFilesAgain(): void {
  if (!forgotten) return;
  forgotten = false;
  // A page that is open keeps its worker alive, which then has to fetch the files once more.
  void keepAppFiles().then((registration) => registration?.active?.postMessage('keep-files'));
}
