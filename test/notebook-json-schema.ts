/**
 * The JSON Schema of the saved notebook, made from the schema that the program checks by and from the
 * words beside the fields in document.ts, so that neither stands twice.
 */
import { readFileSync } from 'node:fs';
import { toJsonSchema } from '@valibot/to-json-schema';
import ts from 'typescript';
import { SCHEMA_VERSION } from '../packages/notebook/src/saving/migrations.ts';
import { NOTEBOOK_FORMAT } from '../packages/notebook/src/saving/save-notebook.ts';
import { documentSchema, PARTS } from '../packages/notebook/src/saving/schema.ts';

const DOCUMENT = new URL('../packages/notebook/src/document/document.ts', import.meta.url);

interface Node {
  description?: string;
  properties?: Record<string, Node>;
  items?: Node;
  anyOf?: Node[];
  [key: string]: unknown;
}

/** What document.ts says of an interface, and of each of its fields: words and type. */
interface Told {
  readonly words: string;
  readonly fields: ReadonlyMap<string, { readonly words: string; readonly type: string }>;
}

/** @returns the schema of the file, envelope and all, as JSON Schema 2020-12 */
export function notebookJsonSchema(): object {
  const { $schema, $defs, ...document } = toJsonSchema(documentSchema, {
    target: 'draft-2020-12',
    definitions: PARTS,
    // Every number of JSON is finite.
    ignoreActions: ['finite'],
  }) as Node & { $defs: Record<string, Node> };
  const told = interfaces();
  describeFields(document, 'NotebookDocument', told);
  for (const [name, definition] of Object.entries($defs)) {
    const named =
      name === 'bath' ? 'WorkingBath' : name.replace(/^./, (first) => first.toUpperCase());
    definition.description = told.get(named)?.words ?? '';
    describeFields(definition, named, told);
  }
  return {
    $schema,
    $id: `urn:wedgebook:notebook:${SCHEMA_VERSION}`,
    title: `Wedgebook notebook, version ${SCHEMA_VERSION}`,
    description: told.get('')?.words,
    type: 'object',
    properties: {
      format: { const: NOTEBOOK_FORMAT },
      schemaVersion: { const: SCHEMA_VERSION },
      document,
    },
    required: ['format', 'schemaVersion', 'document'],
    $defs,
  };
}

function describeFields(schema: Node, name: string, told: ReadonlyMap<string, Told>): void {
  for (const [key, field] of Object.entries(schema.properties ?? {})) {
    const { words = '', type = '' } = told.get(name)?.fields.get(key) ?? {};
    if (words !== '') field.description = words;
    const nested = type.match(/\b[A-Z]\w+\b/g)?.find((each) => told.has(each));
    if (nested !== undefined) describeInside(field, nested, told);
  }
}

/** Through lists and alternatives down to the objects. */
function describeInside(schema: Node, name: string, told: ReadonlyMap<string, Told>): void {
  if (schema.properties !== undefined) describeFields(schema, name, told);
  if (schema.items !== undefined) describeInside(schema.items, name, told);
  for (const each of schema.anyOf ?? []) describeInside(each, name, told);
}

/** The interfaces of document.ts by name; under the empty name, the words at its head. */
function interfaces(): ReadonlyMap<string, Told> {
  const text = readFileSync(DOCUMENT, 'utf8');
  const source = ts.createSourceFile('document.ts', text, ts.ScriptTarget.Latest, true);
  const told = new Map<string, Told>();
  const [head = ''] = /\/\*\*[^]*?\*\//.exec(text) ?? [];
  told.set('', { words: plainWords(head).replace(/ Sources: none.*$/, ''), fields: new Map() });
  for (const statement of source.statements) {
    if (!ts.isInterfaceDeclaration(statement)) continue;
    const fields = statement.members.filter(ts.isPropertySignature).map((member) => {
      const type = member.type?.getText(source) ?? '';
      return [member.name.getText(source), { words: wordsOf(member), type }] as const;
    });
    told.set(statement.name.text, { words: wordsOf(statement), fields: new Map(fields) });
  }
  return told;
}

const wordsOf = (node: ts.Node): string =>
  plainWords(ts.getJSDocCommentsAndTags(node).at(-1)?.getText() ?? '');

/** A block comment in one line. */
function plainWords(comment: string): string {
  return comment
    .replace(/^\/\*\*|\*\/$/g, '')
    .replace(/\s*\n\s*\*[ \t]?/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}
