/** Checked text: trimmed of control characters, bounded, never refused for its language. */
import * as v from 'valibot';

/** C0 and C1 controls except tab and newlines: they come from binary files, not from people. */
// eslint-disable-next-line no-control-regex -- control characters are what is looked for
const controls = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g;

/** The text without control characters. */
export function withoutControls(text: string): string {
  return text.replace(controls, '');
}

/** A required name of one line, at most 200 characters. */
export function shortText(field: string) {
  return v.pipe(
    v.string(`need text for ${field}`),
    v.transform((text) => withoutControls(text).replace(/\s+/g, ' ').trim()),
    v.nonEmpty(`${field} is empty`),
    v.maxLength(200, `${field} is longer than 200 characters`),
  );
}

/** One line, may be empty, at most 2,000 characters. */
export const lineOfText = v.pipe(
  v.string('need text'),
  v.transform((text) => withoutControls(text).replace(/\s*[\r\n]+\s*/g, ' ')),
  v.maxLength(2_000, 'longer than 2,000 characters'),
);

/** Many lines, may be empty, at most 200,000 characters. */
export const longText = v.pipe(
  v.string('need text'),
  v.transform(withoutControls),
  v.maxLength(200_000, 'longer than 200,000 characters'),
);
