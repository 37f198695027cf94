import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import { defineConfig } from 'eslint/config';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

export default defineConfig(
  { ignores: ['dist', 'node_modules'] },
  js.configs.recommended,
  ts.configs.strictTypeChecked,
  svelte.configs.recommended,
  {
    languageOptions: {
      globals: { ...globals.browser, ...globals.node },
      parserOptions: {
        projectService: true,
        tsconfigRootDir: import.meta.dirname,
      },
    },
    rules: {
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      // Numeric loops index typed arrays after a length check; `!` says so (see DEVELOPERS.md).
      '@typescript-eslint/no-non-null-assertion': 'off',
      'no-console': 'error',
      eqeqeq: 'error',
    },
  },
  {
    // Types in components are svelte-check's matter: here they would cost a second a file.
    files: ['**/*.svelte'],
    extends: [ts.configs.disableTypeChecked],
    languageOptions: { parserOptions: { projectService: false, parser: ts.parser, svelteConfig } },
  },
  {
    // Modules with runes are plain TypeScript to a parser; the components' own takes four times as long.
    files: ['**/*.svelte.ts'],
    languageOptions: { parser: ts.parser },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    rules: {
      // Collections are replaced as a whole under $state.raw, never changed in place.
      'svelte/prefer-svelte-reactivity': 'off',
      // A read inside an effect is a dependency; `void` says that nothing else is meant.
      '@typescript-eslint/no-meaningless-void-operator': 'off',
      // ESLint cannot see the types of a component's props; svelte-check does, and is run too.
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  {
    // Time and chance are arguments in the pure layers, so every result can be repeated.
    files: ['src/{model,engine,formats,search}/**/*.ts'],
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'Take the time as an argument.' },
        { object: 'Math', property: 'random', message: 'Take a seeded generator as an argument.' },
      ],
      'no-restricted-syntax': [
        'error',
        {
          selector: 'NewExpression[callee.name="Date"][arguments.length=0]',
          message: 'Take the time as an argument.',
        },
      ],
    },
  },
  {
    files: ['src/serve/**', 'tests/run.mjs', 'tests/bench/**', 'seed-data/**/*.ts'],
    rules: { 'no-console': 'off' },
  },
  {
    // The types of tests are checked by tsc; to ask for them again here would double the time.
    files: ['tests/**/*.ts', 'seed-data/**/*.ts'],
    extends: [ts.configs.disableTypeChecked],
    languageOptions: { parserOptions: { projectService: false } },
  },
  {
    files: ['**/*.mjs', '**/*.js'],
    extends: [ts.configs.disableTypeChecked],
  },
);
