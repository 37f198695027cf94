// Asks the registry whether a shipped package has a known weakness, where the registry can be asked.
import { spawn } from 'node:child_process';

/** Past this the registry counts as out of reach: the rest of the checks must not wait for it. */
const LIMIT_MS = 10_000;

/** @typedef {import('./steps.mjs').StepOutcome} StepOutcome */

/**
 * What npm's answer means. Packages that only build or test are left to the maintainers' own
 * looking: a new advisory for one of them must not stop work on something else.
 *
 * @param {string} answer what `npm audit --json` printed
 * @returns {StepOutcome} passed, with the reason said, when there was no answer to judge by
 */
export function auditOutcome(answer) {
  /** @type {any} */
  let report;
  try {
    report = JSON.parse(answer);
  } catch {
    return skipped('it gave no answer in time');
  }
  const counts = report?.metadata?.vulnerabilities;
  if (typeof counts?.total !== 'number') {
    return skipped(String(report?.message ?? report?.error?.summary ?? 'it gave no report'));
  }
  if (counts.total === 0) {
    return { passed: true, showAlways: true, output: 'no known weakness in the shipped packages' };
  }
  const lines = Object.values(report.vulnerabilities ?? {}).map(
    (/** @type {any} */ each) => `${each.name} ${each.range}: ${each.severity}`,
  );
  return { passed: false, output: [...lines, 'See `npm audit`.'].join('\n') };
}

/** @param {string} why */
function skipped(why) {
  const reason = why.split('\n')[0]?.slice(0, 160);
  return {
    passed: true,
    showAlways: true,
    output: `skipped, the registry cannot be asked: ${String(reason)}`,
  };
}

/**
 * @param {string} root project folder
 * @returns {Promise<StepOutcome>}
 */
export function auditStep(root) {
  const args = ['audit', '--json', '--omit=dev', '--fetch-retries=0', '--fetch-timeout=6000'];
  // Under `npm test` this is npm's own script: the same npm, and no shell is needed on Windows.
  const script = process.env['npm_execpath'];
  const child = script?.endsWith('npm-cli.js')
    ? spawn(process.execPath, [script, ...args], { cwd: root })
    : spawn('npm', args, { cwd: root, shell: process.platform === 'win32' });
  return new Promise((resolve) => {
    let answer = '';
    const timer = setTimeout(() => child.kill(), LIMIT_MS);
    child.stdout.on('data', (chunk) => (answer += String(chunk)));
    child.once('error', (error) => {
      clearTimeout(timer);
      resolve(skipped(error.message));
    });
    child.once('close', () => {
      clearTimeout(timer);
      resolve(auditOutcome(answer));
    });
  });
}
