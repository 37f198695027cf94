/** The rows of a tree that are in sight, and how keys move among them. */

export interface TreeRow {
  readonly id: string;
  /** Ids from the head of the tree, joined by spaces: a concept can stand in several places. */
  readonly path: string;
  readonly level: number;
  /** Its place among its siblings, from 1, and how many these are. */
  readonly place: number;
  readonly of: number;
  readonly hasInside: boolean;
  readonly isOpen: boolean;
}

/** Rows from top to bottom; only what is open is looked into. */
export function visibleRows(
  heads: readonly string[],
  inside: (id: string) => readonly string[],
  open: ReadonlySet<string>,
): readonly TreeRow[] {
  const rows: TreeRow[] = [];
  const add = (ids: readonly string[], before: string, level: number) => {
    ids.forEach((id, k) => {
      const path = before === '' ? id : `${before} ${id}`;
      const within = inside(id);
      const isOpen = open.has(path) && within.length > 0;
      rows.push({
        id,
        path,
        level,
        place: k + 1,
        of: ids.length,
        hasInside: within.length > 0,
        isOpen,
      });
      if (isOpen) add(within, path, level + 1);
    });
  };
  add(heads, '', 1);
  return rows;
}

/**
 * Where a key leads from a row, after the ARIA pattern for trees; undefined for other keys.
 *
 * Source: W3C ARIA Authoring Practices, "Tree View Pattern".
 */
export function moveInTree(
  rows: readonly TreeRow[],
  at: number,
  key: string,
  open: ReadonlySet<string>,
): { readonly path: string; readonly open: ReadonlySet<string> } | undefined {
  const row = rows[at]!;
  const to = (index: number) => ({
    path: rows[Math.max(0, Math.min(rows.length - 1, index))]!.path,
    open,
  });
  switch (key) {
    case 'ArrowDown':
      return to(at + 1);
    case 'ArrowUp':
      return to(at - 1);
    case 'Home':
      return to(0);
    case 'End':
      return to(rows.length - 1);
    case 'ArrowRight':
      if (row.isOpen) return to(at + 1);
      return row.hasInside ? { path: row.path, open: new Set([...open, row.path]) } : to(at);
    case 'ArrowLeft': {
      if (row.isOpen) {
        const next = new Set(open);
        next.delete(row.path);
        return { path: row.path, open: next };
      }
      const parent = row.path.split(' ').slice(0, -1).join(' ');
      return { path: parent === '' ? row.path : parent, open };
    }
    default:
      return undefined;
  }
}
