import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';
import { offline } from './src/serve/offline-plugin.mjs';
import { policy } from './src/serve/policy-plugin.mjs';

export default defineConfig({
  plugins: [svelte(), policy(), offline()],
  base: './',
  publicDir: 'src/app/public',
  worker: { format: 'es' },
  build: { target: 'es2023', assetsInlineLimit: 0, manifest: true },
  server: { host: '127.0.0.1' },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          // Modules are loaded once a worker and not once a file, which halves the time; so a test
          // that changes something global puts it back.
          isolate: false,
          maxWorkers: 2,
          testTimeout: 20_000,
          include: [
            'tests/unit/**/*.test.ts',
            'tests/outside/**/*.test.ts',
            'tests/architecture.test.ts',
          ],
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/harness/global-setup.ts'],
          testTimeout: 120_000,
          // A browser on a busy machine at times draws no frame more; what fails twice has failed.
          retry: 1,
          hookTimeout: 120_000,
          // A journey waits much of its time: three files at a time, each with browsers of its own.
          maxWorkers: 3,
          // After the quick ones, which would slow the browsers down.
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
