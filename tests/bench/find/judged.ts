/** The judged questions, read from their text and matched with the demo's records. */
import type { DemoRecord } from './demo-documents';
import { judgedQueries } from './judged-queries';

export interface Judged {
  readonly typed: string;
  readonly sort: 'known' | 'topic';
  /** Records named in the line, with their grades: "n:half" and the like, or "p:" and a beginning. */
  readonly named: readonly { readonly record: string; readonly grade: number }[];
}

const line = /^(.+?) \| (known|topic) \| (.+)$/;
const entry = /^([cnlrp]:.+)=([123])$/;

/** @throws {Error} naming the line that does not read */
export function readJudged(text: string = judgedQueries): readonly Judged[] {
  return text
    .split('\n')
    .filter((each) => each.trim() !== '' && !each.startsWith('#'))
    .map((each) => {
      const [, typed, sort, entries] = line.exec(each) ?? [];
      if (typed === undefined || entries === undefined) throw new Error(`readJudged: “${each}”`);
      const named = entries.split('; ').map((one) => {
        const [, record, grade] = entry.exec(one) ?? [];
        if (record === undefined) throw new Error(`readJudged: “${one}” in “${each}”`);
        return { record, grade: Number(grade) };
      });
      return { typed, sort: sort as Judged['sort'], named };
    });
}

const keyBeginnings: Readonly<Record<string, string>> = {
  c: 'concepts:',
  n: 'notes:demo-note-',
  l: 'lines:demo-line-',
  r: 'readings:reading-',
};

/** Keys of the records that a name in a line means. */
export function keysOf(record: string, demo: readonly DemoRecord[]): readonly string[] {
  const sort = record.slice(0, 1);
  const name = record.slice(2);
  const beginning = keyBeginnings[sort];
  return demo
    .filter(({ document, piece }) =>
      beginning === undefined ? piece.startsWith(name) : document.key === beginning + name,
    )
    .map(({ document }) => document.key);
}

/** The grade of every record that is worth something for a question, by key. */
export function gradesOf(judged: Judged, demo: readonly DemoRecord[]): ReadonlyMap<string, number> {
  const grades = new Map<string, number>();
  for (const { record, grade } of judged.named) {
    for (const key of keysOf(record, demo)) grades.set(key, Math.max(grade, grades.get(key) ?? 0));
  }
  return grades;
}
