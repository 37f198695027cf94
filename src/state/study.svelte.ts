/** What Read next, Second look and Today show: derived from the log, the ranking and the settings. */
import type { ReadingPlan } from '../engine';
import type { ReadingId } from '../model/ids';
import type { Plan } from '../model/kept-beside';
import { settingsId, type Settings } from '../model/settings';
import { minutesOfDay, type Instant, type LocalDay } from '../model/time';
import type { AppState } from './context';
import {
  gapsWithoutReading,
  minutesReadOn,
  paceOf,
  planEvening,
  readingFacts,
  readingsSince,
} from './reading-plan';
import type { RankedRoot } from './roots.svelte';
import { comingBack, looksOn } from './second-looks';
import { restDays, studySettings } from './study-settings';
import { failureText } from './steps';
import type { CommitResult, Draft, DraftChange, Workspace } from './workspace.svelte';

const noRoots: readonly RankedRoot[] = [];

export class Study {
  readonly #app: Pick<AppState, 'workspace' | 'roots' | 'notices'>;

  constructor(app: Pick<AppState, 'workspace' | 'roots' | 'notices'>) {
    this.#app = app;
    this.today = app.workspace.today;
  }

  /** The day on which the screen was opened. */
  readonly today: LocalDay;

  get #workspace(): Workspace {
    return this.#app.workspace;
  }

  readonly #minutesEast = (at: number) => this.#workspace.minutesEast(at as Instant);

  readonly roots = $derived.by((): readonly RankedRoot[] => {
    const { ranking } = this.#app.roots;
    return ranking.kind === 'ready' ? ranking.value.roots : noRoots;
  });

  readonly stored = $derived.by((): Settings | undefined =>
    this.#workspace.of('settings').find(settingsId),
  );
  readonly settings = $derived.by(() => studySettings(this.stored));
  readonly isRest = $derived.by(() =>
    restDays(this.stored, this.#workspace.of('days').live.values()),
  );

  readonly lookTimes = $derived.by(() =>
    Array.from(this.#workspace.of('looks').live.values(), ({ at }) => at),
  );
  readonly subjects = $derived.by(() =>
    comingBack({
      items: this.#workspace.of('items').live.values(),
      blocks: this.#workspace.of('blocks').live,
      looks: this.#workspace.of('looks').live.values(),
      plans: this.#workspace.of('plans').live.values(),
      lines: this.#workspace.of('lines').live,
      rehearsals: this.#workspace.of('rehearsals').live.values(),
      avoidable: new Map(this.roots.map((root) => [root.conceptId, root.avoidable])),
      minutesEast: this.#minutesEast,
    }),
  );
  readonly looks = $derived.by(() =>
    looksOn(this.today, this.subjects, this.settings, this.lookTimes),
  );

  readonly #events = $derived.by(() => [...this.#workspace.of('readingEvents').live.values()]);
  readonly pace = $derived.by(() => paceOf(this.#workspace.of('readings').live, this.#events));
  readonly readings = $derived.by(() =>
    readingFacts(this.#workspace.of('readings').live, this.#events, this.pace),
  );
  readonly planToday = $derived.by(() => this.planOf(this.today));
  readonly minutesRead = $derived.by(() =>
    minutesReadOn(
      this.today,
      this.#events,
      this.#workspace.of('readings').live,
      this.pace,
      this.#minutesEast,
    ),
  );
  /** Minutes left for reading today, whole. */
  readonly readingMinutes = $derived.by(() =>
    Math.max(
      0,
      Math.round((this.planToday?.minutes ?? this.settings.readingMinutes) - this.minutesRead),
    ),
  );
  readonly #pinnedLater = $derived.by(() => {
    const today = new Set<string>(this.planToday?.pinned);
    return Array.from(this.#workspace.of('plans').live.values(), (plan) =>
      plan.day > this.today ? plan.pinned.filter((id) => !today.has(id)) : [],
    ).flat();
  });
  readonly gaps = $derived.by(() =>
    gapsWithoutReading(this.roots, this.#workspace.of('readings').live.values()),
  );
  readonly since = $derived.by(() =>
    readingsSince(
      this.today,
      this.#workspace.of('readings').live,
      this.#events,
      this.#workspace.of('blocks').live.values(),
      this.#workspace.of('items').live.values(),
      this.#minutesEast,
    ),
  );

  /** The reading plan of today for some minutes; what was put on a later day waits for that. */
  eveningPlan(budgetMinutes: number): ReadingPlan {
    const { pinned = [], refused = [] } = this.planToday ?? {};
    return this.planFor(budgetMinutes, pinned, [...refused, ...this.#pinnedLater]);
  }

  planFor(
    budgetMinutes: number,
    pinned: readonly string[],
    refused: readonly string[] = [],
  ): ReadingPlan {
    return planEvening({
      facts: this.readings,
      roots: this.roots,
      concepts: this.#workspace.of('concepts').live,
      budgetMinutes,
      pinned,
      refused,
    });
  }

  planOf(day: LocalDay): Plan | undefined {
    for (const plan of this.#workspace.of('plans').live.values()) if (plan.day === day) return plan;
    return undefined;
  }

  /** Minutes after midnight, by the clock on the wall. */
  get clockMinutes(): number {
    const { now } = this.#workspace;
    return minutesOfDay(now, this.#minutesEast(now));
  }

  /** Changes what was chosen for a day; the day's record is begun with the first choice. */
  async choose(
    label: string,
    day: LocalDay,
    fields: Partial<
      Pick<Draft<'plans'>, 'minutes' | 'pinned' | 'refused' | 'letGo' | 'letGoLines'>
    >,
    typing = false,
  ): Promise<CommitResult> {
    const changes = (): DraftChange[] => [
      { kind: 'plans', put: { ...this.#planDraft(day), ...fields } },
    ];
    return this.said(await this.#workspace.commit(label, changes, { typing }));
  }

  /** The change that takes a pin of today off; none where there is none. */
  unpinned(id: ReadingId): DraftChange[] {
    const plan = this.planToday;
    if (!plan?.pinned.includes(id)) return [];
    const pinned = plan.pinned.filter((each) => each !== id);
    return [{ kind: 'plans', put: { ...plan, pinned } }];
  }

  /** Puts a reading on another day by hand, as one step. */
  async move(label: string, id: ReadingId, from: LocalDay, to: LocalDay): Promise<CommitResult> {
    const [here, there] = [this.#planDraft(from), this.#planDraft(to)];
    const without = (ids: readonly ReadingId[]) => ids.filter((each) => each !== id);
    return this.said(
      await this.#workspace.commit(label, [
        {
          kind: 'plans',
          put: { ...here, pinned: without(here.pinned) },
        },
        {
          kind: 'plans',
          put: {
            ...there,
            pinned: [...without(there.pinned), id],
            refused: without(there.refused),
          },
        },
      ]),
    );
  }

  #planDraft(day: LocalDay): Draft<'plans'> {
    return (
      this.planOf(day) ?? {
        id: this.#workspace.makeId<'plan'>(),
        day,
        pinned: [],
        refused: [],
        letGo: [],
      }
    );
  }

  async amendSettings(label: string, fields: Partial<Draft<'settings'>>): Promise<CommitResult> {
    return this.said(
      await this.#workspace.amend(label, 'settings', settingsId, fields, { typing: true }),
    );
  }

  /** Says why a change was not saved, where it was not. */
  said(result: CommitResult): CommitResult {
    const failure = failureText(result);
    if (failure) this.#app.notices.failed(failure);
    return result;
  }
}
