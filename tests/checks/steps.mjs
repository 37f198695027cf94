// Runs steps some at a time. What a step prints is held back and shown only when it fails.
import { spawn } from 'node:child_process';

/**
 * @typedef {{ passed: boolean, output: string, showAlways?: boolean }} StepOutcome
 * @typedef {{ name: string, run: () => Promise<StepOutcome> }} Step
 */

/**
 * Runs every step, also after one has failed, and returns the names of those that failed, in the
 * order they were given.
 *
 * @param {readonly Step[]} steps independent of each other
 * @param {number} atOnce how many may run at the same time, at least 1
 * @param {(line: string) => void} say one line a step, and the output of what failed
 * @returns {Promise<string[]>}
 */
export async function runSteps(steps, atOnce, say) {
  /** @type {Set<string>} */
  const failed = new Set();
  const waiting = [...steps];
  const worker = async () => {
    for (let step = waiting.shift(); step; step = waiting.shift()) {
      const started = performance.now();
      const outcome = await outcomeOf(step);
      const word = outcome.passed ? 'passed' : 'FAILED';
      say(`${word}  ${step.name} (${secondsSince(started)})`);
      if (!outcome.passed) failed.add(step.name);
      const shown = !outcome.passed || outcome.showAlways;
      if (shown && outcome.output.trim() !== '') say(indented(outcome.output));
    }
  };
  await Promise.all(Array.from({ length: atOnce }, worker));
  return steps.map((step) => step.name).filter((name) => failed.has(name));
}

/**
 * A step that throws has failed; the others still run.
 *
 * @param {Step} step
 * @returns {Promise<StepOutcome>}
 */
async function outcomeOf(step) {
  try {
    return await step.run();
  } catch (error) {
    return { passed: false, output: String(error instanceof Error ? error.stack : error) };
  }
}

/**
 * Returns a step that runs a program and passes when it ends with 0.
 *
 * @param {string} name
 * @param {string} command
 * @param {string[]} args
 * @param {string} cwd
 * @returns {Step}
 */
export function commandStep(name, command, args, cwd) {
  return {
    name,
    run: () =>
      new Promise((resolve, reject) => {
        const child = spawn(command, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
        let output = '';
        child.stdout.on('data', (chunk) => (output += String(chunk)));
        child.stderr.on('data', (chunk) => (output += String(chunk)));
        child.once('error', reject);
        child.once('close', (code) => resolve({ passed: code === 0, output }));
      }),
  };
}

/**
 * @param {number} started from performance.now()
 * @returns {string} such as "3.1 s"
 */
export function secondsSince(started) {
  return `${((performance.now() - started) / 1000).toFixed(1)} s`;
}

/** @param {string} text */
function indented(text) {
  return text.trimEnd().replace(/^/gm, '    ');
}
