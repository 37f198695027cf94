/** Every key the app listens to, by screen: shown under "?" and in About. */

export interface KeyEntry {
  /** Keys pressed together, as they are printed on them; several ways in several entries. */
  readonly keys: readonly string[];
  readonly does: string;
}

export interface KeyGroup {
  readonly where: string;
  readonly entries: readonly KeyEntry[];
}

export const keyGroups: readonly KeyGroup[] = [
  {
    where: 'Everywhere',
    entries: [
      { keys: ['Tab'], does: 'to the next control; with Shift to the one before' },
      {
        keys: ['Ctrl', 'Z'],
        does: 'takes the last change back (in a field: what was typed there)',
      },
      { keys: ['Ctrl', 'Shift', 'Z'], does: 'does it again' },
      { keys: ['?'], does: 'shows this list' },
    ],
  },
  {
    where: 'Log: the strip of items',
    entries: [
      { keys: ['←', '→'], does: 'to the item before or after' },
      { keys: ['Home', 'End'], does: 'to the first or the last item' },
      { keys: ['Space'], does: 'marks it, or takes the mark off' },
    ],
  },
  {
    where: 'Log: the review of a miss',
    entries: [
      {
        keys: ['Alt', 'Page Down'],
        does: 'into the review, then to the next miss; before one is marked, to the box for numbers',
      },
      { keys: ['Alt', 'Page Up'], does: 'to the miss before' },
      { keys: ['↓'], does: 'in an empty box for concepts: lists the likely ones' },
      { keys: ['1', '…', '7'], does: 'on the reasons: chooses one' },
      { keys: ['Enter'], does: 'on the reasons: to the next miss' },
    ],
  },
  {
    where: 'Map: the section',
    entries: [
      { keys: ['←', '→'], does: 'along the layer' },
      { keys: ['↑', '↓'], does: 'to the concept above or below' },
      { keys: ['Home', 'End'], does: 'to the first or the last of the layer' },
      { keys: ['Enter'], does: 'into the panel of the concept' },
      { keys: ['Escape'], does: 'lets the concept go' },
      { keys: ['+', '−'], does: 'nearer or farther' },
      { keys: ['0'], does: 'the whole section' },
      { keys: ['Shift', '←'], does: 'moves the picture; so do the other arrows' },
    ],
  },
];
