/** A component's syntax tree. Each source is parsed once: imports and words are read from the same tree. */
import { parse, type AST } from 'svelte/compiler';

const parsed = new Map<string, AST.Root>();

/**
 * The tree of a component, as the compiler's parser gives it.
 *
 * @param file its name, for messages
 * @throws the compiler's error where the source is no component
 */
export function componentTree(file: string, source: string): AST.Root {
  const tree = parsed.get(source) ?? parse(source, { modern: true, filename: file });
  parsed.set(source, tree);
  return tree;
}
