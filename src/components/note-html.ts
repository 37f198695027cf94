/** Notes as HTML: CommonMark with tables, formulas and pictures, made safe whatever is in it. */
import DOMPurify from 'dompurify';
import { Marked, type TokenizerAndRendererExtension } from 'marked';
import { texts } from './texts';

const escapeHtml = (text: string) => text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** TeX between dollar signs, common practice: no space inside the signs, so that prices stay prices. */
const formula: TokenizerAndRendererExtension = {
  name: 'formula',
  level: 'inline',
  start: (source) => source.indexOf('$'),
  tokenizer(source) {
    const match = /^(\$\$?)(?=\S)([^$\n]*[^$\s\\])\1(?!\d)/.exec(source);
    if (!match) return undefined;
    return { type: 'formula', raw: match[0], tex: match[2], display: match[1] === '$$' };
  },
  renderer: (token) =>
    `<span data-tex="${escapeHtml(String(token['tex']))}" data-display="${String(token['display'])}">${escapeHtml(token.raw)}</span>`,
};

const plain = new Marked({ gfm: true });
const marked = new Marked({
  gfm: true,
  extensions: [formula],
  renderer: {
    // Only pictures of the candidate's own are shown: any other would be fetched from somewhere.
    image({ href, text }) {
      const own = /^#\/picture\/(.+)$/.exec(href);
      if (own) return `<span data-picture="${escapeHtml(own[1] ?? '')}">${escapeHtml(text)}</span>`;
      return `<em>${escapeHtml(texts.noteHtml.notShown(text || texts.noteHtml.picture))}</em>`;
    },
  },
});

/** The HTML of CommonMark (with tables), not yet made safe; for checks against the specification. */
export function commonMarkHtml(text: string): string {
  return plain.parse(text, { async: false });
}

const tags =
  'p br hr h1 h2 h3 h4 h5 h6 ul ol li blockquote pre code em strong del sub sup a table thead tbody tr th td span';
const attributes = ['href', 'title', 'start', 'align', 'data-tex', 'data-display', 'data-picture'];

/**
 * A note's HTML that holds no script, style, form, frame or address that a browser
 * would fetch by itself. Links lead inside the app, or to a page opened apart.
 */
export function noteHtml(text: string): string {
  const raw = marked.parse(text, { async: false });
  const clean = DOMPurify.sanitize(raw, {
    ALLOWED_TAGS: tags.split(' '),
    ALLOWED_ATTR: attributes,
    // Texts, not addresses: without this they are held to the pattern below and dropped.
    ADD_URI_SAFE_ATTR: attributes.filter((name) => name !== 'href'),
    ALLOW_DATA_ATTR: false,
    ALLOW_ARIA_ATTR: false,
    ALLOWED_URI_REGEXP: /^(?:https?:|mailto:|#\/)/i,
    RETURN_DOM_FRAGMENT: true,
  });
  for (const link of clean.querySelectorAll('a[href]')) {
    if (link.getAttribute('href')?.startsWith('#/')) continue;
    link.setAttribute('target', '_blank');
    link.setAttribute('rel', 'noreferrer noopener');
  }
  const holder = document.createElement('div');
  holder.append(clean);
  return holder.innerHTML;
}
