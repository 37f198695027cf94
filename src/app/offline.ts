/** Use without a network: the service worker, and new versions taken when the person says so. */
import type { Notices } from '../state/notices.svelte';

export function keepOffline(notices: Notices): void {
  // The development server changes its files at every save; only a build is kept.
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  let taken = false;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (taken) location.reload();
  });
  void navigator.serviceWorker
    .register(new URL('sw.js', document.baseURI))
    .then((registration) => {
      const offer = () => {
        const { waiting } = registration;
        // Without a controller this is the first version, and nothing is old.
        if (!waiting || !navigator.serviceWorker.controller) return;
        notices.done('A new version of Hypocentre is ready.', {
          label: 'Take it now',
          run: () => {
            taken = true;
            waiting.postMessage('take-over');
          },
        });
      };
      offer();
      registration.addEventListener('updatefound', () => {
        const { installing } = registration;
        installing?.addEventListener('statechange', () => {
          if (installing.state === 'installed') offer();
        });
      });
    })
    .catch(() => {
      // Private windows may refuse it: the app works, only not without its server.
    });
}
