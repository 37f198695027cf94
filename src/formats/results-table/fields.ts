/** What a column of a results table can hold, and the words its header may use. */
import { foldName } from '../../model/fold-name';

/** In the order in which a mapping step lists them. */
export const resultFields = [
  'date',
  'time',
  'block',
  'position',
  'outcome',
  'guessed',
  'topics',
  'causes',
  'system',
  'reason',
  'missingPiece',
  'chosen',
  'key',
  'seconds',
  'reference',
  'source',
  'timed',
  'mixed',
  'itemCount',
  'minutesGiven',
  'minutesUsed',
  'reviewMinutes',
] as const;
export type ResultField = (typeof resultFields)[number];

/** A field as it is named on screens. */
export const fieldLabels: Readonly<Record<ResultField, string>> = {
  date: 'date',
  time: 'time of day',
  block: 'block',
  position: 'item number',
  outcome: 'right or missed',
  guessed: 'guessed',
  topics: 'topic',
  causes: 'named cause',
  system: 'organ system',
  reason: 'reason',
  missingPiece: 'missing piece',
  chosen: 'option chosen',
  key: 'key',
  seconds: 'time on the item',
  reference: 'own reference',
  source: 'where from',
  timed: 'timed',
  mixed: 'mixed',
  itemCount: 'items in the block',
  minutesGiven: 'minutes given',
  minutesUsed: 'minutes used',
  reviewMinutes: 'review minutes',
};

/** Fields that several columns may hold at once ("topic 1", "topic 2"). */
export const repeatableFields: ReadonlySet<ResultField> = new Set(['topics', 'causes']);

/** Header wordings met in homemade and exported tables (common practice, no source). */
const wordings: Readonly<Record<ResultField, string>> = {
  date: 'date; day; date of block; block date; test date; date answered; answered on; sat on; completed on; submitted on; when; timestamp; date and time; datetime; date/time; started on',
  time: 'time; time of day; start; start time; started; started at; began; began at; clock; clock time',
  block:
    'block; block number; block no; block name; block id; set; set number; question set; session; sitting; test; test number; test name; test id; exam; section; batch; practice set; round',
  position:
    'item; item number; item no; number; no; nr; question; question number; question no; q; q no; q number; position; order; n; index',
  outcome:
    'result; outcome; correct; right; correct or not; right or wrong; right or missed; correct/incorrect; right/wrong; status; mark; marked; score; point; is correct; was correct; answered correctly; correctness; got it right; missed; miss; wrong; incorrect; error; got it wrong; is wrong; is missed; grade; correct (yes/no)',
  guessed: 'guessed; guess; guessed right; was a guess; unsure; lucky guess; guess?',
  topics:
    'topic; concept; subject; tag; theme; about; area; category; subtopic; keyword; content; content area; chapter; topic 1; topic 2; topic 3; concept 1; concept 2; concept 3; learning objective; what it is about; item topic',
  causes:
    'named cause; cause; causes; missing concept; concept missing; gap; root cause; underlying concept; weak concept; missed because of; cause 1; cause 2; cause 3; concept i lacked; missing topic',
  system: 'system; organ system; body system; organ; organ systems',
  reason:
    'reason; why; why missed; why wrong; reason missed; reason for miss; reason for error; type of error; error type; mistake; mistake type; kind of mistake; error reason',
  missingPiece:
    'missing piece; missing fact; what was missing; what i missed; lesson; lesson learned; learned; learnt; takeaway; key point; note; notes; comment; comments; remark; remember; fact; fact missed; what to remember',
  chosen:
    'chosen; chosen option; option chosen; my answer; your answer; answer given; answer; selected; selected option; selected answer; picked; response; my choice; choice; given; my option; chosen letter',
  key: 'key; correct answer; right answer; correct option; right option; answer key; solution; correct choice; correct response; key letter; correct letter',
  seconds:
    'seconds; second; sec; secs; time spent; time taken; time used; duration; response time; time on item; time on question; time per item; time per question; item time; item seconds; time in seconds; answer time; seconds used; seconds taken',
  reference:
    'reference; ref; own reference; item reference; id; item id; question id; code; item code; question code; link; page; source item; q id',
  source:
    'source; where from; from; origin; question source; item source; book; collection; material; provider',
  timed: 'timed; timed?; timed or not; timed or untimed; under time',
  mixed: 'mixed; mixed?; mixed or one system; mixed block',
  itemCount:
    'items in block; items in the block; number of items; block size; number of questions; questions in block; total items; total questions; size',
  minutesGiven:
    'minutes given; time given; minutes allowed; time allowed; time limit; minutes limit',
  minutesUsed:
    'minutes; minutes used; minutes taken; block minutes; total minutes; time for block; min; mins; block time',
  reviewMinutes:
    'review minutes; review time; minutes of review; time to review; minutes reviewed; review',
};

const fieldByWording: ReadonlyMap<string, ResultField> = new Map(
  resultFields.flatMap((field) =>
    [...wordings[field].split(';'), fieldLabels[field]].map(
      (wording) => [foldName(wording), field] as const,
    ),
  ),
);

/** Long wordings, which may also stand inside a longer header ("Topic of the item"). */
const longWordings = [...fieldByWording].filter(([wording]) => wording.length >= 6);
longWordings.sort((a, b) => b[0].length - a[0].length);

export interface HeaderReading {
  readonly field: ResultField;
  /** True when the whole header is a known wording, not only a part of it. */
  readonly exact: boolean;
}

/**
 * The field that a header names, by known wordings; undefined for a wording not known.
 *
 * @example
 * findFieldOfHeader('Time spent (s)'); // { field: 'seconds', exact: true }
 */
export function findFieldOfHeader(header: string): HeaderReading | undefined {
  if (/^\s*[#№]\s*$/.test(header)) return { field: 'position', exact: true };
  const bare = header.replace(/\([^)]*\)|\[[^\]]*\]/g, ' ');
  for (const text of [header, bare]) {
    const field = fieldByWording.get(foldName(text));
    if (field) return { field, exact: true };
  }
  const folded = foldName(bare);
  const part = longWordings.find(([wording]) => folded.includes(wording));
  return part ? { field: part[1], exact: false } : undefined;
}

export type HeaderSense = 'right' | 'missed' | 'neutral';

/**
 * What a mark in a column with this header says: "Correct?" right, "Wrong" missed.
 *
 * @example
 * senseOfHeader('Incorrect (1/0)'); // "missed"
 */
export function senseOfHeader(header: string): HeaderSense {
  const text = foldName(header);
  const missed = /incorrect|wrong|miss|error|mistake|fail/.test(text);
  const right = /(?<!in)correct|right|score|point|pass/.test(text);
  if (missed === right) return 'neutral'; // neither, or "right or wrong"
  return missed ? 'missed' : 'right';
}
