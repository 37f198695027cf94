/** Puts timings into lines for the terminal. */
import { cpus, release, totalmem } from 'node:os';
import { pairedRatios, summarise, type Timings } from './measure';

/** One line: machine, system, Node and date, without which a figure says nothing. */
export function machineLine(now: Date): string {
  const cores = cpus();
  const memoryGb = (totalmem() / 2 ** 30).toFixed(0);
  return (
    `${cores[0]?.model.trim() ?? 'unknown processor'}, ${cores.length} cores, ${memoryGb} GB; ` +
    `${process.platform} ${release()}; Node ${process.versions.node}; ${now.toISOString().slice(0, 10)}`
  );
}

/**
 * A table of ms, a row for each subject, then a line for each ratio to the first.
 *
 * @param timings ours first
 */
export function timingLines(timings: readonly Timings[]): string[] {
  const width = Math.max(...timings.map(({ label }) => label.length));
  const row = (label: string, cells: readonly string[]): string =>
    `  ${label.padEnd(width)}  ${cells.map((cell) => cell.padStart(10)).join('')}`;
  const [ours, ...others] = timings;
  return [
    row('', ['min ms', 'median', 'mean', 'deviation', 'runs']),
    ...timings.map(({ label, ms }) => {
      const { min, median, mean, deviation } = summarise(ms);
      return row(label, [...[min, median, mean, deviation].map(figure), String(ms.length)]);
    }),
    ...others.map((other) => ratioLine(ours!, other)),
  ];
}

function ratioLine(ours: Timings, other: Timings): string {
  const ratios = pairedRatios(ours.ms, other.ms);
  const { min, median } = summarise(ratios);
  return (
    `  ${other.label} takes ${figure(median)} times as long as ${ours.label} ` +
    `(median of ${ratios.length} rounds; ${figure(min)} to ${figure(Math.max(...ratios))})`
  );
}

/** Three significant figures; no more would be honest. */
function figure(value: number): string {
  if (value >= 100) return value.toFixed(0);
  return value >= 10 ? value.toFixed(1) : value.toPrecision(3);
}
