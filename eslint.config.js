import { defineConfig, globalIgnores } from 'eslint/config';
import tseslint from 'typescript-eslint';
import { configs as lit } from 'eslint-plugin-lit';
import { configs as wc } from 'eslint-plugin-wc';
import { importX } from 'eslint-plugin-import-x';
import { oneWayDependencies } from './tools/one-way-dependencies.js';

export default defineConfig(
  globalIgnores(['**/dist/**', '**/node_modules/**', 'artifacts/**']),
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.strictTypeChecked],
    plugins: {
      'import-x': importX,
      house: { rules: { 'one-way-dependencies': oneWayDependencies } },
    },
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      'house/one-way-dependencies': 'error',
      'import-x/no-cycle': ['error', { ignoreExternal: true }],
      'max-lines': ['error', { max: 400, skipBlankLines: true, skipComments: true }],
      eqeqeq: 'error',
      'no-console': 'error',
    },
    settings: {
      'import-x/resolver-next': [],
      'import-x/extensions': ['.ts'],
    },
  },
  {
    files: ['packages/charts/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          paths: ['d3-selection', 'd3-axis', 'd3-transition'].map((name) => ({
            name,
            message: 'Lit owns the DOM; charts return plain data.',
          })),
        },
      ],
    },
  },
  {
    files: ['apps/web/**/*.ts'],
    extends: [lit['flat/recommended'], wc['flat/recommended']],
  },
  {
    files: ['**/*.test.ts', 'test/**/*.ts', 'packages/cli/src/**/*.ts'],
    rules: { 'no-console': 'off' },
  },
  {
    files: ['**/*.test.ts', 'test/**/*.ts'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      'no-restricted-syntax': [
        'error',
        {
          selector: "CallExpression[callee.property.name='toBeCloseTo']",
          message:
            'Its second argument is a digit count; use expectWithin with a stated tolerance.',
        },
      ],
    },
  },
);
