/** Taking steps back and doing them again, with a word on what happened. */
import type { NoticeAction, Notices } from './notices.svelte';
import type { CommitResult, Workspace } from './workspace.svelte';

/**
 * Takes the last step back or does the last one undone again, and says so.
 *
 * @param step the step meant, where a notice stands for one
 */
export async function takeStep(
  workspace: Workspace,
  notices: Notices,
  direction: 'undo' | 'redo',
  step?: number,
): Promise<void> {
  const label = direction === 'undo' ? workspace.undoLabel : workspace.redoLabel;
  if (label === undefined) return;
  const result = direction === 'undo' ? await workspace.undo(step) : await workspace.redo();
  if (result.kind === 'saved') {
    notices.done(direction === 'undo' ? `Taken back: ${label}.` : `Done again: ${label}.`);
  } else if (result.kind === 'conflict' && result.refs.length === 0) {
    notices.failed(
      `Other changes came after it. “Undo” beside the screens takes them back one by one, first: ${label}.`,
    );
  } else {
    notices.failed(failureText(result) ?? `“${label}” could not be taken back.`);
  }
}

/** The "Undo" of a notice, tied to the step it stands for. */
export function undoAction(
  workspace: Workspace,
  notices: Notices,
  result: CommitResult,
): NoticeAction {
  const step = result.kind === 'saved' ? result.step : undefined;
  return { label: 'Undo', run: () => takeStep(workspace, notices, 'undo', step) };
}

/** Why a change was not saved, for a notice; undefined when it was. */
export function failureText(result: CommitResult): string | undefined {
  switch (result.kind) {
    case 'saved':
      return undefined;
    case 'stopped':
      return 'Not saved: it was stopped.';
    case 'conflict':
      return 'Not saved: another tab has changed the same record. What you see now is its version.';
    case 'failed':
      return `Not saved. ${result.message}`;
  }
}
