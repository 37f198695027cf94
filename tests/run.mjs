// `npm test`: everything that has to hold, from a bare clone, in one command.
//
// The quick checks run two at a time and are all heard before the run stops; the tests come last,
// so the output ends with vitest's own closing lines.
import { nodeVersionFault } from '../src/serve/node-version.mjs';

const fault = nodeVersionFault(process.versions.node);
if (fault) {
  console.error(fault);
  process.exitCode = 1;
} else {
  import('./checks/run-all.mjs')
    .then((all) => all.runAll())
    .then((exitCode) => {
      process.exitCode = exitCode;
    })
    .catch((error) => {
      console.error(error);
      process.exitCode = 1;
    });
}
