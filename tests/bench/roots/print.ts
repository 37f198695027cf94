/** The tables of the benchmark, as text that is also Markdown. */
import type { Coverage, ReliabilityBin } from './metrics/calibration';
import { leastBinCount, type Summary } from './summary';

/** One variant at one size. */
export interface Group {
  readonly variant: string;
  readonly title: string;
  readonly itemCount: number;
  readonly candidateCount: number;
  /** Mean over candidates. */
  readonly missCount: number;
  readonly columns: readonly {
    readonly name: string;
    readonly title: string;
    /** Candidates it ran on. */
    readonly candidateCount: number;
    readonly summary: Summary;
  }[];
}

const nothing = '–';

/** The table of one group: methods across, scores down; then the reliability of each chance. */
export function groupText(group: Group): string {
  const counting = group.columns.find(({ name }) => name === 'count')?.summary.milliseconds;
  const rows: [string, (summary: Summary) => string][] = [
    ['NDCG@10', ({ gain }) => decimals(gain, 3)],
    ['precision@10', ({ precision }) => decimals(precision, 3)],
    ['average precision', ({ averagePrecision }) => decimals(averagePrecision, 3)],
    ['share of the way', ({ share }) => decimals(share, 2)],
    ['  its standard error', ({ shareError }) => decimals(shareError, 2)],
    ['90 % interval of a gap’s rate', ({ gapCoverage }) => percent(gapCoverage, 'inside')],
    ['  truth above it', ({ gapCoverage }) => percent(gapCoverage, 'above')],
    ['  truth below it', ({ gapCoverage }) => percent(gapCoverage, 'below')],
    [
      '90 % interval of any rate: surface gaps',
      ({ surfaceGapCoverage }) => percent(surfaceGapCoverage, 'inside'),
    ],
    ['  deep gaps', ({ deepGapCoverage }) => percent(deepGapCoverage, 'inside')],
    ['  surface concepts', ({ surfaceCoverage }) => percent(surfaceCoverage, 'inside')],
    ['Brier score', ({ brier }) => decimals(brier, 4)],
    [`worst bin of ${leastBinCount}+`, ({ worstBin }) => decimals(worstBin, 3)],
    ['largest gap chance', ({ largestChance }) => decimals(largestChance, 3)],
    ['called a gap', ({ called }) => decimals(called, 1)],
    ['  falsely', ({ falselyCalled }) => decimals(falselyCalled, 1)],
    ['chance of a healed gap', ({ healedChance }) => decimals(healedChance, 3)],
    ['settled', ({ settled }) => (settled ? `${settled.hits}/${settled.of}` : nothing)],
    ['time, ms', ({ milliseconds }) => decimals(milliseconds, milliseconds < 10 ? 2 : 0)],
    ['  times counting', ({ milliseconds }) => decimals(milliseconds / (counting ?? NaN), 0)],
  ];
  const table = rows
    .map(([head, cell]) => [head, ...group.columns.map(({ summary }) => cell(summary))])
    .filter((cells) => cells.slice(1).some((cell) => cell !== nothing));
  const missShare = ((100 * group.missCount) / group.itemCount).toFixed(0);
  return [
    `### ${group.variant}: ${group.title}; ${group.itemCount} items, ${missShare} % missed, ${group.candidateCount} candidates`,
    '',
    tableText([['', ...group.columns.map(({ title }) => title)], ...table]),
    ...group.columns.flatMap(({ title, summary }) =>
      summary.bins ? ['', reliabilityText(title, summary.bins)] : [],
    ),
    '',
  ].join('\n');
}

/**
 * All groups on one page: NDCG@10 / precision@10 / average precision of each method, and the share
 * of the way from counting to the ceiling. Groups without a gap to find are left out.
 */
export function overviewText(groups: readonly Group[]): string {
  const ranked = groups.filter(({ columns }) =>
    columns.some(({ summary }) => Number.isFinite(summary.gain)),
  );
  const titles = ranked[0]?.columns.map(({ title }) => title) ?? [];
  const triple = ({ gain, precision, averagePrecision }: Summary) =>
    [gain, precision, averagePrecision].map((score) => short(score)).join(' / ');
  const scores = ranked.map((group) => [
    `${group.variant}, ${group.itemCount}`,
    ...group.columns.map(({ summary }) => triple(summary)),
  ]);
  const shares = ranked.map((group) => [
    `${group.variant}, ${group.itemCount}`,
    ...group.columns.map(({ summary }) => decimals(summary.share, 2)),
  ]);
  return [
    '### NDCG@10 / precision@10 / average precision',
    '',
    tableText([['candidates, items', ...titles], ...scores]),
    '',
    '### Share of the way from counting to the ceiling',
    '',
    tableText([['candidates, items', ...titles], ...shares]),
    '',
  ].join('\n');
}

/** Intervals, gap chances and time of the methods that state intervals, one line a group. */
export function certaintyText(groups: readonly Group[]): string {
  const head = ['candidates, items', 'method', 'gaps held', 'surface held', 'Brier'];
  const rows = groups.flatMap((group) => {
    const counting = group.columns.find(({ name }) => name === 'count')?.summary.milliseconds;
    return group.columns
      .filter(({ summary }) => summary.surfaceCoverage)
      .map(({ title, summary }) => [
        `${group.variant}, ${group.itemCount}`,
        title,
        percent(summary.gapCoverage, 'inside'),
        percent(summary.surfaceCoverage, 'inside'),
        decimals(summary.brier, 4),
        decimals(summary.worstBin, 3),
        decimals(summary.falselyCalled, 1),
        decimals(summary.milliseconds, 0),
        decimals(summary.milliseconds / (counting ?? NaN), 0),
      ]);
  });
  return [
    '### 90 % intervals, gap chances and time',
    '',
    tableText([
      [...head, `worst bin of ${leastBinCount}+`, 'falsely called', 'ms', 'times counting'],
      ...rows,
    ]),
    '',
  ].join('\n');
}

/** Stated chances against what came true, a column for each bin that holds a concept. */
function reliabilityText(title: string, bins: readonly ReliabilityBin[]): string {
  const filled = bins.filter((bin) => bin.count > 0);
  // What the share that came true would scatter by, were every chance right.
  const scatter = ({ meanStated: p, count }: ReliabilityBin) => Math.sqrt((p * (1 - p)) / count);
  return tableText([
    [`${title}: gap chance`, ...filled.map(({ from, to }) => `${from}-${to}`)],
    ['mean stated', ...filled.map(({ meanStated }) => decimals(meanStated, 3))],
    ['came true', ...filled.map(({ shareTrue }) => decimals(shareTrue, 3))],
    ['  scatter by luck', ...filled.map((bin) => decimals(scatter(bin), 3))],
    ['concepts', ...filled.map(({ count }) => String(count))],
  ]);
}

/** A Markdown table with its columns lined up; the first row is the head. */
export function tableText(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length)),
  );
  const line = (row: readonly string[]) =>
    `| ${widths.map((width, column) => (column === 0 ? (row[0] ?? '').padEnd(width) : (row[column] ?? '').padStart(width))).join(' | ')} |`;
  const rule = `| ${widths.map((width, column) => (column === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`)).join(' | ')} |`;
  const [head = [], ...body] = rows;
  return [line(head), rule, ...body.map(line)].join('\n');
}

/** Two decimals without the leading 0, as in ".83". */
function short(value: number): string {
  return decimals(value, 2).replace(/^0/, '');
}

function decimals(value: number | undefined, places: number): string {
  return value === undefined || !Number.isFinite(value) ? nothing : value.toFixed(places);
}

function percent(coverage: Coverage | undefined, part: keyof Coverage): string {
  if (!coverage) return nothing;
  const all = coverage.inside + coverage.above + coverage.below;
  return all > 0 ? `${((100 * coverage[part]) / all).toFixed(0)} %` : nothing;
}
