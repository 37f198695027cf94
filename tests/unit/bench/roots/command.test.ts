import { describe, expect, it } from 'vitest';
import { readCommand } from '../../../bench/roots/command';

const names = (list: readonly { readonly name: string }[]) => list.map(({ name }) => name);

describe('the command line of the roots benchmark', () => {
  it('runs everything on the reported seeds where nothing is said', () => {
    const command = readCommand([]);
    expect(command.seeds.length).toBeGreaterThanOrEqual(8);
    expect(Math.min(...command.seeds)).toBeGreaterThanOrEqual(100);
    expect(command.sizes).toBeUndefined();
    expect(names(command.methods)).toEqual([
      'count',
      'roll-up',
      'topic-rate',
      'over-represented',
      'dino',
      'nida',
      'quick',
      'sampler',
      'ceiling',
    ]);
    expect(names(command.variants)).toContain('no-gap');
    expect(command.json).toBe(false);
  });

  it('reads seeds, sizes, variants and methods, in their own order', () => {
    const command = readCommand(
      '--seeds 3-5 --sizes 50,9 --variants healed,base --methods ceiling,count --json'.split(' '),
    );
    expect(command.seeds).toEqual([3, 4, 5]);
    expect(command.sizes).toEqual([50, 9]);
    expect(names(command.variants)).toEqual(['base', 'healed']);
    expect(names(command.methods)).toEqual(['count', 'ceiling']);
    expect(command.json).toBe(true);
    expect(readCommand(['--seeds', '7']).seeds).toEqual([7]);
  });

  it('is quick on request, and what is said beside it still counts', () => {
    const command = readCommand(['--quick', '--seeds', '1-2']);
    expect(command.sizes).toEqual([400]);
    expect(names(command.variants)).toEqual(['base', 'misses-only']);
    expect(command.seeds).toEqual([1, 2]);
  });

  it('names what it does not know', () => {
    expect(() => readCommand(['--methods', 'count,oracle'])).toThrow('got oracle');
    expect(() => readCommand(['--variants', 'bass'])).toThrow('got bass');
    expect(() => readCommand(['--seeds', '5-3'])).toThrow('got 5-3');
    expect(() => readCommand(['--sizes', '400,few'])).toThrow('got few');
  });
});
