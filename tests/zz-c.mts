import { randomFrom } from '../src/engine/numeric/random';
import { startChain } from '../src/engine/roots/chain';
import { compileLog } from '../src/engine/roots/compile';
import { defaultParameters } from '../src/engine/roots/parameters';
import { benchLog } from './bench/engine/network';
const log = benchLog(20261125, 15000, 2000);
const compiled = compileLog(log, {}, defaultParameters);
const rate = new Float64Array(compiled.exposure.length).fill(0.1);
const chains = [1, 2, 3, 4].map((s) => startChain(compiled, randomFrom(s), { rate, slipRate: 0.1, gapShare: 0.1 }));
for (let k = 0; k < 200; k++) for (const c of chains) c.sweep();
for (let round = 0; round < 2; round++) for (const c of chains) {
const a = performance.now();
for (let k = 0; k < 1000; k++) c.sweep();
console.log('ms a sweep', ((performance.now() - a) / 1000).toFixed(3));
}
