/** Removes what the browser keeps of the app beside the database: its files for use without a network. */
export async function forgetCaches(): Promise<void> {
  // Absent where the page is not served securely.
  if ('caches' in globalThis) {
    for (const name of await caches.keys()) await caches.delete(name);
  }
  if ('serviceWorker' in navigator) {
    for (const each of await navigator.serviceWorker.getRegistrations()) await each.unregister();
  }
}
