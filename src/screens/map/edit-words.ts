/** Committing an edit of the map, and what to say when it is refused. */
import { failureText, undoAction } from '../../state/steps';
import type { AppState } from '../../state/context';
import type { Edit } from '../../state/map-edit';

/** Why an edit is refused, in one sentence; undefined when it may go ahead. */
export function refusalOf(edit: Edit): string | undefined {
  switch (edit.kind) {
    case 'ok':
      return undefined;
    case 'loop':
      return `That would make a loop: ${edit.names.join(' rests on ')}. Take out one of these links first.`;
    case 'taken':
      return `“${edit.by.name}” bears this name already. Choose another name, or merge the two.`;
    case 'refused':
      return edit.why;
  }
}

/** Commits an edit as one step; returns what went wrong, undefined when it was saved. */
export async function commitEdit(
  { workspace, notices }: Pick<AppState, 'workspace' | 'notices'>,
  label: string,
  edit: Edit,
): Promise<string | undefined> {
  if (edit.kind !== 'ok') return refusalOf(edit);
  if (edit.changes.length === 0) return undefined;
  const result = await workspace.commit(label, edit.changes);
  const failure = failureText(result);
  if (failure === undefined) {
    notices.done(`Done: ${label}.`, undoAction(workspace, notices, result));
  }
  return failure;
}
