// The steps of `npm test`, in order.
import { spawn } from 'node:child_process';
import path from 'node:path';
import { ensureBuilt } from '../../src/serve/ensure-built.mjs';
import { ensureInstalled } from '../../src/serve/ensure-installed.mjs';
import { PROJECT_ROOT } from '../../src/serve/project.mjs';
import { auditStep } from './audit.mjs';
import { documentFaults } from './documents.mjs';
import { firstScreenReport } from './first-screen-size.mjs';
import { commandStep, runSteps, secondsSince } from './steps.mjs';

/** @typedef {import('./steps.mjs').Step} Step */

/** @returns {Promise<number>} the exit code */
export async function runAll() {
  const say = (/** @type {string} */ line) => void process.stdout.write(`${line}\n`);
  const installed = await ensureInstalled(PROJECT_ROOT, say);
  if (installed.kind === 'failed') {
    complain(installed.message);
    return 1;
  }
  const failed = await runSteps(checks(), 2, say);
  if (failed.length > 0) {
    complain(`\nFailed: ${failed.join(', ')}. The tests were not run.`);
    return 1;
  }
  say('Tests…');
  return runVitest();
}

/** @returns {Step[]} longest first, so that two at a time end soonest */
function checks() {
  const bin = (/** @type {string} */ file) => path.join(PROJECT_ROOT, 'node_modules', file);
  const node = (/** @type {string} */ name, /** @type {string[]} */ args) =>
    commandStep(name, process.execPath, args, PROJECT_ROOT);
  return [
    node('lint', [bin('eslint/bin/eslint.js'), '.']),
    node('types', [
      bin('svelte-check/bin/svelte-check'),
      ...['--tsconfig', './tsconfig.json', '--fail-on-warnings'],
    ]),
    node('types of the pure layers', [
      bin('typescript/bin/tsc'),
      ...['--noEmit', '-p', 'src/tsconfig.pure.json'],
    ]),
    { name: 'build and first-screen size', run: buildAndWeigh },
    node('format', [bin('prettier/bin/prettier.cjs'), '--check', '.']),
    { name: 'documents', run: checkDocuments },
    { name: 'known weaknesses of shipped packages', run: () => auditStep(PROJECT_ROOT) },
  ];
}

/** @returns {Promise<import('./steps.mjs').StepOutcome>} */
async function buildAndWeigh() {
  const built = await ensureBuilt(PROJECT_ROOT, () => {});
  if (built.kind === 'failed') return { passed: false, output: built.message };
  const { withinBudget, lines } = firstScreenReport(path.join(PROJECT_ROOT, 'dist'));
  return { passed: withinBudget, output: lines.join('\n'), showAlways: true };
}

/** @returns {Promise<import('./steps.mjs').StepOutcome>} */
function checkDocuments() {
  const faults = documentFaults(PROJECT_ROOT, ['README.md', 'DEVELOPERS.md']);
  return Promise.resolve({ passed: faults.length === 0, output: faults.join('\n') });
}

/** @returns {Promise<number>} */
function runVitest() {
  const started = performance.now();
  const vitest = path.join(PROJECT_ROOT, 'node_modules', 'vitest', 'vitest.mjs');
  const child = spawn(process.execPath, [vitest, 'run'], { cwd: PROJECT_ROOT, stdio: 'inherit' });
  return new Promise((resolve) => {
    child.once('error', (error) => {
      complain(String(error));
      resolve(1);
    });
    child.once('close', (code) => {
      if (code !== 0) complain(`Failed: tests (${secondsSince(started)}).`);
      resolve(code ?? 1);
    });
  });
}

/** @param {string} text */
function complain(text) {
  process.stderr.write(`${text}\n`);
}
