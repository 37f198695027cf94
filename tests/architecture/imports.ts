/** Reads what a source file imports, in every way a file can: the rules stand on this. */
import ts from 'typescript';
import { componentTree } from './component-tree';

/**
 * How a file reaches another. `type` leaves nothing in the running program; `asset` is
 * `new URL('./x', import.meta.url)`, which is how workers are started.
 */
export type ImportKind = 'static' | 'type' | 'dynamic' | 'asset' | 'glob';

export interface FoundImport {
  readonly specifier: string;
  readonly kind: ImportKind;
}

/**
 * Every import in a source file, in order of appearance; a repeated one is repeated.
 *
 * @param file its name, for the language: .ts, .svelte.ts, .mjs, .js or .svelte
 * @throws {Error} for a dynamic import whose target is not a plain string: no rule could see it
 *
 * @example
 * importsIn('a.ts', "import type { A } from './b';"); // [{ specifier: './b', kind: 'type' }]
 */
export function importsIn(file: string, source: string): FoundImport[] {
  return file.endsWith('.svelte') ? importsInSvelte(file, source) : importsInScript(file, source);
}

function importsInScript(file: string, source: string): FoundImport[] {
  const found: FoundImport[] = [];
  const tree = ts.createSourceFile(file, source, ts.ScriptTarget.ESNext, true);
  const visit = (node: ts.Node): void => {
    const one = importAt(file, node);
    if (one) found.push(one);
    // Doc comments hold the types of plain JavaScript files; only the full list of children has them.
    if (/\.m?js$/.test(file)) node.getChildren(tree).forEach(visit);
    else ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

function importAt(file: string, node: ts.Node): FoundImport | undefined {
  if (ts.isImportDeclaration(node)) {
    return { specifier: textOf(file, node.moduleSpecifier), kind: kindOfImport(node.importClause) };
  }
  if (ts.isExportDeclaration(node) && node.moduleSpecifier) {
    const onlyTypes = node.isTypeOnly || everyNamedIsType(node.exportClause);
    return { specifier: textOf(file, node.moduleSpecifier), kind: onlyTypes ? 'type' : 'static' };
  }
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
    return { specifier: textOf(file, node.argument.literal), kind: 'type' };
  }
  if (ts.isExternalModuleReference(node)) {
    return { specifier: textOf(file, node.expression), kind: 'static' };
  }
  if (ts.isCallExpression(node)) {
    const called = node.expression;
    if (called.kind === ts.SyntaxKind.ImportKeyword || called.getText() === 'require') {
      return { specifier: textOf(file, node.arguments[0]), kind: 'dynamic' };
    }
    if (called.getText() === 'import.meta.glob') {
      return { specifier: textOf(file, node.arguments[0]), kind: 'glob' };
    }
  }
  if (ts.isNewExpression(node) && node.expression.getText() === 'URL') {
    const [target, base] = node.arguments ?? [];
    if (base?.getText() === 'import.meta.url') {
      return { specifier: textOf(file, target), kind: 'asset' };
    }
  }
  return undefined;
}

function kindOfImport(clause: ts.ImportClause | undefined): ImportKind {
  if (!clause) return 'static';
  if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return 'type';
  return !clause.name && everyNamedIsType(clause.namedBindings) ? 'type' : 'static';
}

/** True for `{ type A, type B }`; false for `{}`, which still runs the file. */
function everyNamedIsType(named: ts.NamedImportBindings | ts.NamedExportBindings | undefined) {
  if (!named || !(ts.isNamedImports(named) || ts.isNamedExports(named))) return false;
  const elements: readonly { readonly isTypeOnly: boolean }[] = named.elements;
  return elements.length > 0 && elements.every((element) => element.isTypeOnly);
}

function textOf(file: string, node: ts.Node | undefined): string {
  if (node && ts.isStringLiteralLike(node)) return node.text;
  throw new Error(`${file}: an import that is not a plain string: ${node?.getText() ?? 'nothing'}`);
}

/** Scripts are read as TypeScript; the markup can hold `import(...)` too, in any expression. */
function importsInSvelte(file: string, source: string): FoundImport[] {
  const tree = componentTree(file, source);
  const scripts = [tree.module, tree.instance].flatMap((script) =>
    script ? importsInScript(`${file}.ts`, scriptText(source, script)) : [],
  );
  const markup: FoundImport[] = [];
  visitExpressions(tree.fragment, (start, end) => {
    markup.push(...importsInScript(`${file}.ts`, `(${source.slice(start, end)})`));
  });
  return [...scripts, ...markup];
}

function scriptText(source: string, script: object): string {
  const { start, end } = (script as { content: { start: number; end: number } }).content;
  return source.slice(start, end);
}

/** Calls back for each `import(...)` and `new URL(...)` expression in a markup tree. */
function visitExpressions(node: unknown, found: (start: number, end: number) => void): void {
  if (Array.isArray(node)) {
    for (const child of node) visitExpressions(child, found);
  } else if (typeof node === 'object' && node !== null) {
    const { type, start, end } = node as { type?: unknown; start?: unknown; end?: unknown };
    const wanted = type === 'ImportExpression' || type === 'NewExpression';
    if (wanted && typeof start === 'number' && typeof end === 'number') found(start, end);
    else for (const child of Object.values(node)) visitExpressions(child, found);
  }
}
