/** Committing an edit of the map, and what to say when it is refused. */
import { failureText, undoAction } from '../../state/steps';
import type { AppState } from '../../state/context';
import type { Edit } from '../../state/map-edit';
import { texts } from './texts';

/** Why an edit is refused, in one sentence; undefined when it may go ahead. */
export function refusalOf(edit: Edit): string | undefined {
  switch (edit.kind) {
    case 'ok':
      return undefined;
    case 'loop':
      return texts.editWords.thatWouldMakeALoop(edit.names.join(texts.editWords.restsOn));
    case 'taken':
      return texts.editWords.bearsThisNameAlreadyChoose(edit.by.name);
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
    notices.done(texts.editWords.done(label), undoAction(workspace, notices, result));
  }
  return failure;
}
