import { describe, expect, it } from 'vitest';
import { nodeVersionFault } from '../../../src/serve/node-version.mjs';

describe('the Node version check', () => {
  it.each(['20.19.0', '20.20.2', '22.13.0', '22.23.3', '24.0.0'])('takes %s', (version) => {
    expect(nodeVersionFault(version)).toBeUndefined();
  });

  // Ranges of the build and lint tools' own package metadata: ^20.19.0 || ^22.13.0 || >=24.
  it.each(['18.20.4', '20.18.9', '21.7.3', '22.12.0', '9.99.0'])(
    'refuses %s by name',
    (version) => {
      expect(nodeVersionFault(version)).toContain(`this is Node ${version}.`);
    },
  );
});
