/** What Trends shows, each part worked out when its section first asks for it. */
import {
  accuracyByWeek,
  calibrationBins,
  chooseWidth,
  compareAll,
  expectBlock,
  fadeOf,
  meanInterval,
  settledByWeek,
  shrinkRates,
  smoothShares,
  weekOf,
  type Foretold,
} from '../engine';
import { settingsId } from '../model/settings';
import type { ConceptId } from '../model/ids';
import { loading, type Load } from './load';
import type { Roots } from './roots.svelte';
import { sheetDefaults } from './sheet.svelte';
import { countByGroup, countedBlocks } from './trend-input';
import type { Workspace } from './workspace.svelte';

/** Weeks in one step of the picture of roots over time. */
export const rootStepWeeks = 4;
/** Roots shown over time. */
const rootsShown = 6;

export interface RootCourse {
  readonly concept: ConceptId;
  /** Traced misses in each step, the earliest first. */
  readonly steps: readonly number[];
}

export class Trends {
  readonly #workspace: Workspace;
  readonly #roots: Roots;
  #foretold = $state.raw<Load<Foretold>>(loading);
  #courses = $state.raw<Load<readonly RootCourse[]>>(loading);

  constructor(workspace: Workspace, roots: Roots) {
    this.#workspace = workspace;
    this.#roots = roots;
  }

  readonly #settings = $derived.by(() => this.#workspace.of('settings').find(settingsId));
  readonly paceSeconds = $derived(this.#settings?.paceSeconds ?? sheetDefaults.paceSeconds);
  readonly paperDay = $derived(this.#settings?.paperDay);
  readonly daysToPaper = $derived.by(() =>
    this.paperDay === undefined ? undefined : this.paperDay - this.#workspace.today,
  );

  readonly blocks = $derived.by(() =>
    countedBlocks(
      this.#workspace.of('blocks').live.values(),
      this.#workspace.of('items').live.values(),
      this.#workspace.of('days').live.values(),
      (day) => this.#workspace.minutesEastOn(day),
    ),
  );

  readonly weeks = $derived(accuracyByWeek(this.blocks));
  readonly width = $derived(this.weeks.length < 2 ? undefined : chooseWidth(this.weeks));
  readonly smooth = $derived(this.width === undefined ? [] : smoothShares(this.weeks, this.width));

  readonly bySystem = $derived.by(() => {
    const systems = this.#workspace.of('systems').live;
    return shrinkRates(
      countByGroup(this.blocks, this.#workspace.of('items').live.values(), (item, block) => {
        const system = item.system ?? block.system;
        return system && systems.has(system) ? [system] : [];
      }),
    );
  });

  readonly byDiscipline = $derived.by(() => {
    const concepts = this.#workspace.of('concepts').live;
    return shrinkRates(
      countByGroup(this.blocks, this.#workspace.of('items').live.values(), ({ topics }) => {
        const [first] = topics;
        // Most items have one topic: no need to look for what counts twice.
        if (first && topics.length === 1) return concepts.get(first)?.disciplines ?? [];
        return [...new Set(topics.flatMap((topic) => concepts.get(topic)?.disciplines ?? []))];
      }),
    );
  });

  readonly comparisons = $derived(compareAll(this.blocks, this.paceSeconds));

  readonly paceByWeek = $derived.by(() => {
    const weeks = new Map<number, number[]>();
    for (const { day, secondsUsed, timed } of this.blocks) {
      if (secondsUsed === undefined || timed === false) continue;
      const week = weeks.get(weekOf(day));
      if (week) week.push(secondsUsed);
      else weeks.set(weekOf(day), [secondsUsed]);
    }
    return [...weeks]
      .sort(([a], [b]) => a - b)
      .map(([week, seconds]) => ({ week, ...meanInterval(seconds)! }));
  });

  /** Seconds an item in the latest timed blocks. */
  readonly paceNow = $derived(
    meanInterval(
      this.blocks
        .filter(({ timed }) => timed !== false)
        .flatMap(({ secondsUsed }) => (secondsUsed === undefined ? [] : [secondsUsed]))
        .slice(-10),
    ),
  );

  readonly #timedPlaced = $derived(
    this.blocks.flatMap(({ items, missedAt, timed }) =>
      missedAt && timed !== false ? [{ items, missedAt }] : [],
    ),
  );
  readonly fade = $derived(this.#timedPlaced.length === 0 ? undefined : fadeOf(this.#timedPlaced));

  readonly notReached = $derived.by(() => {
    const timed = this.blocks.filter((block) => block.timed !== false);
    const sum = (blocks: typeof timed) => ({
      blocks: blocks.length,
      items: blocks.reduce((total, { items }) => total + items, 0),
      missed: blocks.reduce((total, { notReached }) => total + notReached, 0),
    });
    return { all: sum(timed), lately: sum(timed.slice(-10)) };
  });

  readonly settled = $derived.by(() => {
    const blocks = this.#workspace.of('blocks').live;
    const misses = [...this.#workspace.of('items').live.values()].flatMap((item) => {
      const block = item.outcome === 'missed' ? blocks.get(item.block) : undefined;
      return block ? [{ id: item.id, day: block.day }] : [];
    });
    const looks = [...this.#workspace.of('looks').live.values()].flatMap(({ item, at, outcome }) =>
      item === undefined
        ? []
        : [{ item, at, day: this.#workspace.dayOf(at), had: outcome === 'had-it' }],
    );
    return { weeks: settledByWeek(misses, looks), looks: looks.length };
  });

  get foretold(): Load<Foretold> {
    return this.#foretold;
  }

  readonly expectation = $derived.by(() => {
    if (this.#foretold.kind !== 'ready' || this.#foretold.value.kind !== 'foretold')
      return undefined;
    const { now, blocks, items } = this.#foretold.value;
    const days = this.daysToPaper;
    return {
      now: expectBlock(now, blocks, 0),
      paper: days === undefined || days < 1 ? undefined : expectBlock(now, blocks, days),
      bins: calibrationBins(items),
      foretoldItems: items.length,
    };
  });

  /** Asks the worker for its past predictions; a newer question drops this one. */
  async foretell(): Promise<void> {
    const answer = await this.#roots.foretold();
    if (answer.kind !== 'loading') this.#foretold = answer;
  }

  get courses(): Load<readonly RootCourse[]> {
    return this.#courses;
  }

  /** First and last step of the courses, in weeks. */
  readonly stepRange = $derived.by(() => {
    const weeks = this.weeks;
    const [first, last] = [weeks[0]?.week, weeks.at(-1)?.week];
    if (first === undefined || last === undefined) return undefined;
    // Steps end with the last week, so that the latest one is whole.
    const count = Math.ceil((last - first + 1) / rootStepWeeks);
    return { firstWeek: last + 1 - count * rootStepWeeks, count };
  });

  /** The first roots with their traced misses over time, by the day each miss was made. */
  async traceCourses(): Promise<void> {
    const ranking = this.#roots.ranking;
    const range = this.stepRange;
    if (ranking.kind !== 'ready' || !range) return;
    const items = this.#workspace.of('items').live;
    const blocks = this.#workspace.of('blocks').live;
    const courses: RootCourse[] = [];
    for (const { conceptId } of ranking.value.roots.slice(0, rootsShown)) {
      const concept = conceptId as ConceptId;
      const evidence = await this.#roots.evidenceFor(concept);
      if (evidence.kind === 'loading') return; // overtaken: the newer question will answer
      if (evidence.kind === 'failed') {
        this.#courses = evidence;
        return;
      }
      const steps = Array.from({ length: range.count }, () => 0);
      for (const { itemId, share } of evidence.value) {
        const block = blocks.get(items.get(itemId)?.block ?? '');
        if (!block) continue;
        const step = Math.floor((weekOf(block.day) - range.firstWeek) / rootStepWeeks);
        if (step >= 0 && step < steps.length) steps[step]! += share;
      }
      courses.push({ concept, steps });
    }
    this.#courses = { kind: 'ready', value: courses };
  }
}
