/** The recall sheet as screens read it: lines with their worth, what fits, proposals, rehearsals. */
import {
  failingLines,
  fitSheet,
  measuredSpeed,
  nextMinuteOf,
  proposeLines,
  startingWordsPerMinute,
  worthOfLines,
  writingSeconds,
  writtenCharacters,
  type FailingLine,
  type LineWorth,
} from '../engine';
import { inMapOrder, type Concept } from '../model/concept-map';
import type { ConceptId, LineId } from '../model/ids';
import type { Rehearsal } from '../model/kept-beside';
import { settingsId, type Settings } from '../model/settings';
import type { Line } from '../model/study';
import type { Roots } from './roots.svelte';
import type { CommitResult, Draft, Workspace } from './workspace.svelte';

/** The tutorial of the paper, the paper itself: common practice, no source. All can be set. */
export const sheetDefaults = { tutorialMinutes: 15, paceSeconds: 90, paperItems: 200 } as const;

/** The kind of proposal under which a refused one is kept. */
const proposalKind = 'sheet-line';

export interface SheetLine {
  readonly line: Line;
  /** Writing seconds: the candidate's own, else estimated from the text. */
  readonly seconds: number;
  readonly ownSeconds: boolean;
  readonly worth: LineWorth;
}

export interface SheetGroup {
  /** Undefined: lines whose concepts belong to no discipline. */
  readonly discipline: string | undefined;
  readonly lines: readonly SheetLine[];
}

export class Sheet {
  readonly #workspace: Workspace;
  readonly #roots: Roots;

  constructor(workspace: Workspace, roots: Roots) {
    this.#workspace = workspace;
    this.#roots = roots;
  }

  readonly #settings = $derived.by(() => this.#workspace.of('settings').find(settingsId));
  readonly tutorialMinutes = $derived(
    this.#settings?.tutorialMinutes ?? sheetDefaults.tutorialMinutes,
  );
  readonly paceSeconds = $derived(this.#settings?.paceSeconds ?? sheetDefaults.paceSeconds);
  readonly paperItems = $derived(this.#settings?.paperItems ?? sheetDefaults.paperItems);
  readonly budgetSeconds = $derived(this.tutorialMinutes * 60);

  /** Rehearsals that were compared, the latest first. */
  readonly rehearsals = $derived.by(() => this.#rehearsals().filter(({ lines }) => lines.length));
  /** One that was begun and not compared yet. */
  readonly unfinished = $derived.by(() => this.#rehearsals().find(({ lines }) => !lines.length));

  /** From rehearsals on paper; undefined without any. */
  readonly measuredSpeed = $derived.by(() => {
    const lines = this.#workspace.of('lines').live;
    return measuredSpeed(
      this.rehearsals.map((rehearsal) => ({
        at: rehearsal.at,
        manner: rehearsal.manner,
        seconds: rehearsal.seconds,
        characters: rehearsal.lines.reduce((sum, { line, share }) => {
          const text = lines.get(line)?.text;
          return sum + (text === undefined ? 0 : share * writtenCharacters(text));
        }, 0),
      })),
    );
  });

  readonly wordsPerMinute = $derived(
    this.#settings?.wordsPerMinute ?? this.measuredSpeed ?? startingWordsPerMinute,
  );
  readonly speedSource = $derived<'set' | 'measured' | 'start'>(
    this.#settings?.wordsPerMinute !== undefined
      ? 'set'
      : this.measuredSpeed !== undefined
        ? 'measured'
        : 'start',
  );

  readonly #traced = $derived.by(() => {
    const ranking = this.#roots.ranking;
    return ranking.kind === 'ready' ? ranking.value : undefined;
  });

  /** Whether the roots have been traced, so that worth means something. */
  readonly traced = $derived(this.#traced !== undefined);

  /** Every line, of most worth first. */
  readonly lines = $derived.by((): readonly SheetLine[] => {
    const lines = [...this.#workspace.of('lines').live.values()];
    const worth = worthOfLines(lines, this.#traced?.roots ?? [], {
      paperItems: this.paperItems,
      itemsLogged: this.#traced?.itemCount ?? 0,
      paceSeconds: this.paceSeconds,
    });
    return lines
      .map((line, i) => ({
        line,
        seconds: line.seconds ?? writingSeconds(line.text, this.wordsPerMinute),
        ownSeconds: line.seconds !== undefined,
        worth: worth[i]!,
      }))
      .sort(
        (a, b) =>
          b.worth.worth - a.worth.worth || nameOfLine(a.line).localeCompare(nameOfLine(b.line)),
      );
  });

  readonly #fitLines = $derived(
    this.lines.map(({ line, seconds, worth }) => ({
      id: line.id,
      seconds,
      worth: worth.worth,
      pinned: line.pinned === true,
      // An empty line has nothing to write.
      banned: line.banned === true || line.text.trim() === '',
    })),
  );
  readonly fit = $derived(fitSheet(this.#fitLines, this.budgetSeconds));
  readonly nextMinute = $derived(nextMinuteOf(this.#fitLines, this.budgetSeconds, this.fit));

  readonly #inside = $derived(new Set(this.fit.in));
  readonly onSheet = $derived(this.lines.filter(({ line }) => this.#inside.has(line.id)));
  readonly offSheet = $derived(this.lines.filter(({ line }) => !this.#inside.has(line.id)));

  /** What is on the sheet in blocks by discipline, in the order of the map. */
  readonly groups = $derived.by(() => this.groupsOf(this.onSheet));

  readonly proposals = $derived.by(() => {
    const putAway = new Set(
      [...this.#workspace.of('dismissals').live.values()]
        .filter(({ about }) => about === proposalKind)
        .flatMap(({ subjects }) => subjects),
    );
    const lines = [...this.#workspace.of('lines').live.values()];
    return proposeLines(lines, this.#traced?.roots ?? [], putAway);
  });

  /** Lines that keep failing and are still there. */
  readonly failing = $derived.by((): readonly FailingLine[] =>
    failingLines(this.rehearsals).filter(({ line }) =>
      this.#workspace.of('lines').find(line as LineId),
    ),
  );

  groupsOf(lines: readonly SheetLine[]): SheetGroup[] {
    const order = inMapOrder(this.#workspace.of('disciplines').live.values());
    const groups = new Map<string | undefined, SheetLine[]>();
    for (const each of lines) {
      const id = this.#disciplineOf(each.line);
      const group = groups.get(id);
      if (group) group.push(each);
      else groups.set(id, [each]);
    }
    const named = order.flatMap(({ id, name }) => {
      const found = groups.get(id);
      return found ? [{ discipline: name, lines: found }] : [];
    });
    const rest = groups.get(undefined);
    return rest ? [...named, { discipline: undefined, lines: rest }] : named;
  }

  #disciplineOf(line: Line): string | undefined {
    const disciplines = this.#workspace.of('disciplines').live;
    for (const id of line.concepts) {
      const concept: Concept | undefined = this.#workspace.of('concepts').find(id);
      const found = concept?.disciplines.find((discipline) => disciplines.has(discipline));
      if (found) return found;
    }
    return undefined;
  }

  #rehearsals(): Rehearsal[] {
    return [...this.#workspace.of('rehearsals').live.values()].sort((a, b) => b.at - a.at);
  }

  putAwayProposal(concept: ConceptId, name: string): Promise<CommitResult> {
    return this.#workspace.commit(`put away the proposal of a line on ${name}`, [
      {
        kind: 'dismissals',
        put: { id: this.#workspace.makeId(), about: proposalKind, subjects: [concept] },
      },
    ]);
  }

  amend(label: string, line: Line, fields: Partial<Draft<'lines'>>, typing = false) {
    return this.#workspace.amend(label, 'lines', line.id, fields, { typing });
  }

  amendSettings(label: string, fields: Partial<Settings>): Promise<CommitResult> {
    return this.#workspace.amend(label, 'settings', settingsId, fields, { typing: true });
  }
}

/** What a line is called where it does not stand in full: its heading, else how it begins. */
export function nameOfLine({ heading, text }: Pick<Line, 'heading' | 'text'>): string {
  const first = heading?.trim() || (text.trim().split('\n')[0] ?? '').trim();
  if (first === '') return 'Empty line';
  return first.length > 60 ? `${first.slice(0, 58).trimEnd()}…` : first;
}
