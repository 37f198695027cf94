/** From what the candidate chose at the preview to what planning needs and what is stored. */
import type { BlockDraft, ImportAnswers, ImportContext, LoggedItem, LoggedItems } from '../formats';
import type { BlockId, ConceptId } from '../model/ids';
import { instantOfLocal } from '../model/time';
import type { Draft, DraftChange, Workspace } from './workspace.svelte';

/** What becomes of a topic name that no concept carries. */
export type TopicDecision =
  | { readonly kind: 'concept'; readonly concept: ConceptId }
  | { readonly kind: 'new'; readonly draft: Draft<'concepts'> }
  | { readonly kind: 'leave-out' };

export interface ImportChoices {
  readonly answers: ImportAnswers;
  /** By the folded name of the topic. */
  readonly decisions: ReadonlyMap<string, TopicDecision>;
  readonly newSystems: readonly Draft<'systems'>[];
}

/** What planning is told beside the table: the map with what is new, and the matches made by hand. */
export function importContext(workspace: Workspace, choices: ImportChoices): ImportContext {
  const made = [...choices.decisions.values()].flatMap((decision) =>
    decision.kind === 'new' ? [decision.draft] : [],
  );
  const decided = Array.from(choices.decisions, ([folded, decision]) => ({
    folded,
    concepts: conceptsOf(decision),
  }));
  const before = [...workspace.of('topicMatches').live.values()]
    .filter(({ folded }) => !choices.decisions.has(folded))
    .map(({ folded, concepts }) => ({ folded, concepts }));
  return {
    concepts: [...workspace.of('concepts').live.values(), ...made].map(({ id, name, aliases }) => ({
      id,
      name,
      aliases,
    })),
    systems: [...workspace.of('systems').live.values(), ...choices.newSystems].map(
      ({ id, name, shortName }) => ({ id, name, shortName }),
    ),
    remembered: [...decided, ...before],
    answers: choices.answers,
    today: workspace.today,
    log: loggedItems(workspace),
  };
}

/** The log as planning compares rows with it. */
function loggedItems(workspace: Workspace): LoggedItems {
  const blocks = [...workspace.of('blocks').live.values()].map(({ id, day }) => ({ id, day }));
  const indexOf = new Map(blocks.map(({ id }, index) => [id, index]));
  const items: LoggedItem[] = [];
  for (const item of workspace.of('items').live.values()) {
    const blockIndex = indexOf.get(item.block);
    if (blockIndex === undefined) continue;
    const { position, outcome, topics, causes, reference } = item;
    items.push({ blockIndex, position, outcome, topics, causes, reference });
  }
  return { blocks, items };
}

/** New concepts and systems, and what was decided by hand, to be remembered. */
export function decisionChanges(workspace: Workspace, choices: ImportChoices): DraftChange[] {
  const changes: DraftChange[] = choices.newSystems.map((put) => ({ kind: 'systems', put }));
  const known = new Map(
    [...workspace.of('topicMatches').live.values()].map((match) => [match.folded, match.id]),
  );
  for (const [folded, decision] of choices.decisions) {
    if (decision.kind === 'new') {
      changes.push({ kind: 'concepts', put: decision.draft });
      continue; // found by its own name from now on
    }
    const id = known.get(folded) ?? workspace.makeId<'topic-match'>();
    changes.push({ kind: 'topicMatches', put: { id, folded, concepts: conceptsOf(decision) } });
  }
  return changes;
}

/**
 * The changes without new concepts that no item names: a column that is read as
 * something else since the concept was decided would leave it behind.
 */
export function withoutUnused(changes: readonly DraftChange[]): DraftChange[] {
  const used = new Set(
    changes.flatMap((change) =>
      change.kind === 'items' && 'put' in change
        ? [...change.put.topics, ...change.put.causes]
        : [],
    ),
  );
  return changes.filter(
    (change) => change.kind !== 'concepts' || !('put' in change) || used.has(change.put.id),
  );
}

/**
 * A planned block and its items as records without stamps. A draft that joins a
 * block of the log adds its items there and raises that block's number of items.
 */
export function blockChanges(workspace: Workspace, draft: BlockDraft): DraftChange[] {
  const { content, startMinutes, items } = draft;
  const joined = draft.joins && workspace.of('blocks').find(draft.joins);
  if (joined) {
    const put = {
      ...joined,
      itemCount: Math.max(joined.itemCount, content.itemCount),
      onlyMisses: joined.onlyMisses && content.onlyMisses,
    };
    return [{ kind: 'blocks', put }, ...itemChanges(workspace, joined.id, items)];
  }
  const block = workspace.makeId<'block'>();
  const startedAt =
    startMinutes === undefined
      ? undefined
      : instantOfLocal(content.day, startMinutes, workspace.minutesEastOn(content.day));
  return [
    { kind: 'blocks', put: { ...content, id: block, startedAt } },
    ...itemChanges(workspace, block, items),
  ];
}

function itemChanges(
  workspace: Workspace,
  block: BlockId,
  items: BlockDraft['items'],
): DraftChange[] {
  return items.map(({ content }) => ({
    kind: 'items',
    put: { ...content, id: workspace.makeId(), block },
  }));
}

function conceptsOf(decision: TopicDecision): ConceptId[] {
  if (decision.kind === 'leave-out') return [];
  return [decision.kind === 'new' ? decision.draft.id : decision.concept];
}
