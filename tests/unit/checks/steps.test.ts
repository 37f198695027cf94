import { describe, expect, it } from 'vitest';
import { commandStep, runSteps, type Step } from '../../checks/steps.mjs';

const step = (name: string, passed: boolean, output = ''): Step => ({
  name,
  run: () => Promise.resolve({ passed, output }),
});

describe('running the checks', () => {
  it('runs all of them and names all that failed, in their own order', async () => {
    const said: string[] = [];
    const steps = [step('a', false, 'why a'), step('b', true, 'quiet'), step('c', false, 'why c')];
    expect(await runSteps(steps, 2, (line) => said.push(line))).toEqual(['a', 'c']);
    expect(said.join('\n')).toContain('    why a');
    expect(said.join('\n')).toContain('    why c');
    expect(said.join('\n')).not.toContain('quiet');
  });

  it('never runs more at once than it may', async () => {
    let running = 0;
    let most = 0;
    const steps = ['a', 'b', 'c', 'd', 'e'].map((name) => ({
      name,
      run: async () => {
        most = Math.max(most, ++running);
        await Promise.resolve();
        running--;
        return { passed: true, output: '' };
      },
    }));
    await runSteps(steps, 2, () => undefined);
    expect(most).toBe(2);
  });

  it('counts a step that throws as failed and goes on', async () => {
    const thrower = { name: 'thrower', run: () => Promise.reject(new Error('no disk')) };
    const said: string[] = [];
    const steps = [thrower, step('after', true)];
    expect(await runSteps(steps, 1, (line) => said.push(line))).toEqual(['thrower']);
    expect(said.join('\n')).toContain('no disk');
    expect(said.some((line) => line.startsWith('passed  after'))).toBe(true);
  });

  it('goes by the exit code of a program and keeps both its outputs', async () => {
    const script = 'console.log("out"); console.error("err"); process.exit(3)';
    const outcome = await commandStep('x', process.execPath, ['-e', script], '.').run();
    expect(outcome.passed).toBe(false);
    expect(outcome.output).toContain('out');
    expect(outcome.output).toContain('err');
  });

  it('fails a program that is not there', async () => {
    const missing = commandStep('missing', './no-such-program', [], '.');
    expect(await runSteps([missing], 1, () => undefined)).toEqual(['missing']);
  });
});
