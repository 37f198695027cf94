// `npm start`. Only the version check is imported at the top: everything else uses newer syntax
// and would end an older Node with a stack trace in place of a sentence.
import { nodeVersionFault } from './node-version.mjs';

const fault = nodeVersionFault(process.versions.node);
if (fault) {
  console.error(fault);
  process.exitCode = 1;
} else {
  import('./launch.mjs')
    .then((launch) => launch.startApp(process.argv.slice(2)))
    .then((exitCode) => {
      process.exitCode = exitCode;
    })
    .catch((error) => {
      console.error(error);
      process.exitCode = 1;
    });
}
