/** Finds the words that stand in a component's markup instead of in the `texts.ts` of its folder. */
import { componentTree } from './component-tree';

/** Attributes and props of ours whose value a person reads or hears. */
const SPOKEN = new Set([
  ...['aria-label', 'aria-description', 'aria-roledescription', 'aria-valuetext', 'alt', 'title'],
  ...['placeholder', 'label', 'hint', 'lead', 'legend', 'summary', 'heading', 'caption', 'text'],
  ...['description', 'confirmLabel', 'groupLabel', 'valueLabel', 'xLabel', 'yLabel'],
  ...['data-label', 'data-unit'],
]);

export interface FoundWords {
  readonly line: number;
  readonly words: string;
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

/**
 * The texts with a letter in them that stand in the markup: text between tags, attributes
 * that are read or heard, and the string literals that an expression in either place shows.
 * What a script holds is not looked at, as it cannot be told from keys and names there.
 *
 * @param file its name, for messages
 * @returns in order of appearance; lines count from 1
 *
 * @example
 * wordsInMarkup('A.svelte', '<p class="a">Two <b>{words}</b></p>'); // [{ line: 1, words: 'Two' }]
 */
export function wordsInMarkup(file: string, source: string): FoundWords[] {
  const found: FoundWords[] = [];
  const add = (node: Node, text: unknown): void => {
    const words = typeof text === 'string' ? text.trim() : '';
    if (/\p{L}/u.test(words))
      found.push({ line: source.slice(0, node.start).split('\n').length, words });
  };
  /** Adds what an expression shows by itself; what is handed to a function is the function's matter. */
  const addShown = (node: Node): void => {
    if (node.type === 'BinaryExpression' && node['operator'] !== '+') return; // a comparison
    if (node.type === 'Literal') add(node, node['value']);
    for (const key of ['consequent', 'alternate', 'left', 'right', 'quasis'])
      for (const child of nodesIn(node[key])) addShown(child);
    if (node.type === 'TemplateElement') add(node, (node['value'] as { cooked: string }).cooked);
  };
  const addValue = (node: Node): void => {
    if (node.type === 'Text') add(node, node['data']);
    if (node.type === 'ExpressionTag') nodesIn(node['expression']).forEach(addShown);
  };
  const visit = (node: Node): void => {
    if (node.type === 'Attribute') {
      if (SPOKEN.has(String(node['name']))) nodesIn(node['value']).forEach(addValue);
      return;
    }
    if (node.type === 'StyleDirective') return; // lengths and colours
    if (node.type === 'Text' || node.type === 'ExpressionTag') addValue(node);
    else Object.values(node).flatMap(nodesIn).forEach(visit);
  };
  nodesIn(componentTree(file, source).fragment).forEach(visit);
  return found;
}

/** A value of the tree as nodes: one, several or none. */
function nodesIn(value: unknown): Node[] {
  if (Array.isArray(value)) return value.flatMap(nodesIn);
  const isNode = typeof value === 'object' && value !== null && 'type' in value;
  return isNode ? [value as Node] : [];
}
