/**
 * ESLint rule: dependencies between the packages, and between the rooms of core, point one way.
 *
 *   core <- data <- notebook <- {cli, web}      core <- charts <- {cli, web}
 *   readings, fitting <- curve <- film, paper <- treatment, development, printing <- ways
 *   readings, fitting <- scan
 *
 * Packages are imported by their entry only; a relative import never leaves its package.
 */
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '..');

/** Entries of core that the app loads when first needed. */
const LATER_ENTRIES = [
  '@wedgebook/core/last-word',
  '@wedgebook/core/quantities',
  '@wedgebook/core/suspects',
];

/** package folder -> the packages it may import */
const PACKAGES = {
  'packages/core': [],
  data: ['@wedgebook/core'],
  'packages/notebook': ['@wedgebook/core', '@wedgebook/data'],
  'packages/charts': ['@wedgebook/core'],
  'packages/cli': [
    '@wedgebook/core',
    '@wedgebook/data',
    '@wedgebook/notebook',
    '@wedgebook/charts',
  ],
  'apps/web': ['@wedgebook/core', '@wedgebook/data', '@wedgebook/notebook', '@wedgebook/charts'],
};

/** room of core -> the rooms it may import; files at the root of src are open to all */
const BASE = ['readings', 'fitting'];
const CURVE = [...BASE, 'curve'];
const MEASURES = [...CURVE, 'film', 'paper'];
const ROOMS = {
  readings: [],
  fitting: [],
  curve: BASE,
  scan: BASE,
  film: CURVE,
  paper: CURVE,
  treatment: MEASURES,
  development: MEASURES,
  printing: [...MEASURES, 'treatment'],
  ways: [...MEASURES, 'treatment', 'development', 'printing'],
  quantities: [],
};

const ownerOf = (file) => {
  const relative = path.relative(ROOT, file).split(path.sep).join('/');
  const folder = Object.keys(PACKAGES).find((name) => relative.startsWith(`${name}/`));
  return folder === undefined ? undefined : { folder, inside: relative.slice(folder.length + 1) };
};
const roomOf = (inside) => /^src\/([^/]+)\//.exec(inside)?.[1];

export const oneWayDependencies = {
  meta: {
    type: 'problem',
    schema: [],
    docs: { description: 'dependencies point one way' },
    messages: {
      package: '{{from}} may not import {{to}}: dependencies point one way.',
      entry: 'Import {{to}} by its entry only.',
      leaves: 'A relative import may not leave its package.',
      room: 'core/{{from}} may not import core/{{to}}: rooms point one way.',
    },
  },
  create(context) {
    const owner = ownerOf(context.filename);
    if (owner === undefined) return {};
    const isTest = context.filename.endsWith('.test.ts');
    const check = (node) => {
      const source = node.source?.value;
      if (typeof source !== 'string') return;
      const report = (messageId, data) => context.report({ node, messageId, data });
      if (source.startsWith('@wedgebook/')) {
        const [scope, name, ...rest] = source.split('/');
        const to = `${scope}/${name}`;
        if (!PACKAGES[owner.folder].includes(to)) report('package', { from: owner.folder, to });
        if (rest.length > 0 && !LATER_ENTRIES.includes(source)) report('entry', { to });
        return;
      }
      if (!source.startsWith('.')) return;
      const target = ownerOf(path.resolve(path.dirname(context.filename), source));
      if (target?.folder !== owner.folder) {
        // Tests beside a module share the helpers in test/.
        if (!isTest) report('leaves');
        return;
      }
      if (owner.folder !== 'packages/core' || isTest) return;
      const from = roomOf(owner.inside);
      const to = roomOf(target.inside);
      if (from === undefined || to === undefined || from === to) return;
      if (ROOMS[from]?.includes(to) !== true) report('room', { from, to });
    };
    return {
      ImportDeclaration: check,
      ExportNamedDeclaration: check,
      ExportAllDeclaration: check,
      ImportExpression: check,
    };
  },
};
