/** Short messages at the foot of the screen: what was done, and how to take it back. */

export interface NoticeAction {
  readonly label: string;
  readonly run: () => unknown;
}

export interface Notice {
  readonly id: number;
  /**
   * A failure stays until it is put away and is announced at once; a reminder came by itself and
   * leaves what was done, and the way back from it, on screen.
   */
  readonly tone: 'done' | 'reminder' | 'failed';
  readonly text: string;
  readonly action: NoticeAction | undefined;
  /** Screens left since it came up. */
  readonly screensLeft: number;
}

/** Notices on screen at most; the oldest gives way. */
const mostNotices = 3;

export class Notices {
  #list = $state.raw<readonly Notice[]>([]);
  #nextId = 1;

  get list(): readonly Notice[] {
    return this.#list;
  }

  done(text: string, action?: NoticeAction): void {
    this.#add('done', text, action);
  }

  remind(text: string, action?: NoticeAction): void {
    this.#add('reminder', text, action);
  }

  failed(text: string, action?: NoticeAction): void {
    this.#add('failed', text, action);
  }

  putAway(id: number): void {
    this.#list = this.#list.filter((notice) => notice.id !== id);
  }

  /**
   * The reader went to another screen: what was done is old news there, save
   * for what was done on the way.
   */
  leaveScreen(): void {
    this.#list = this.#list
      .filter((notice) => notice.tone === 'failed' || notice.screensLeft === 0)
      .map((notice) => ({ ...notice, screensLeft: notice.screensLeft + 1 }));
  }

  #add(tone: Notice['tone'], text: string, action: NoticeAction | undefined): void {
    const notice = { id: this.#nextId++, tone, text, action, screensLeft: 0 };
    // A new word on what was done replaces the last one; the rest piles up to be read, each word once.
    const kept = this.#list
      .filter((old) => old.tone !== 'done' || tone === 'reminder')
      .filter((old) => old.tone !== tone || old.text !== text)
      .slice(1 - mostNotices);
    this.#list = [...kept, notice];
  }
}
