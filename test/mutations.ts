/**
 * Damage to the text of a valid file, as fast-check makes and shrinks it: characters lost, put in,
 * doubled or moved, numbers and words replaced by awkward ones, values of JSON replaced whole.
 */
import fc from 'fast-check';

/** What stands in files that were damaged, or made to do damage. */
const PIECES = [
  '',
  '"',
  '""',
  "'",
  ',',
  ';',
  '\t',
  '\n',
  '\r',
  '\r\n',
  '#',
  '\\',
  '\u0000',
  '\uFEFF',
  '\uFFFD',
  '\uD800',
  '\u2212',
  '{',
  '}',
  '[',
  ']',
  '['.repeat(5000),
  'null',
  'true',
  '0',
  '-0',
  '-1',
  '1e999',
  '1e-320',
  '9007199254740993',
  '1,5',
  'NaN',
  'BEGIN_DATA',
  'END_DATA',
  'BEGIN_DATA_FORMAT',
  'NUMBER_OF_SETS 7',
  'KEYWORD "X"',
  'x'.repeat(70_000),
] as const;

/** Values put in the place of a value of JSON. */
const VALUES: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1e308,
  5e-324,
  2 ** 53,
  '',
  'x',
  '__proto__',
  'constructor',
  [],
  {},
  [[]],
  [null],
  { id: 'x' },
  Array.from({ length: 300 }, () => 1.5),
];
const KEYS = ['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'id', 'name', '', '0'];

/** Anywhere alike: the ends of a file, which fast-check prefers, are not where most of it is. */
const place = fc.noBias(fc.nat(999_999)).map((part) => part / 1e6);
const length = fc.oneof(fc.nat(12), fc.nat(2000));
const number = fc.oneof(
  fc.double({ noNaN: true, min: -10, max: 10 }),
  fc.double({ noDefaultInfinity: true, noNaN: true }),
  fc.integer(),
);

type Edit =
  | {
      readonly kind: 'put-in' | 'swap-number' | 'swap-word';
      readonly at: number;
      readonly piece: string;
    }
  | {
      readonly kind: 'take-out' | 'double' | 'cut-off';
      readonly at: number;
      readonly length: number;
    }
  | { readonly kind: 'move'; readonly at: number; readonly length: number; readonly to: number }
  | { readonly kind: 'set-value' | 'set-number'; readonly at: number; readonly value: unknown }
  | { readonly kind: 'rename-key'; readonly at: number; readonly key: string }
  | { readonly kind: 'drop' | 'repeat' | 'nest'; readonly at: number };

const piece = fc.oneof(
  fc.constantFrom(...PIECES),
  fc.string({ unit: 'binary', maxLength: 6 }),
  number.map(String),
);
const textEdit: fc.Arbitrary<Edit> = fc.oneof(
  fc.record({
    kind: fc.constantFrom('put-in' as const, 'swap-number' as const, 'swap-word' as const),
    at: place,
    piece,
  }),
  fc.record({
    kind: fc.constantFrom('take-out' as const, 'double' as const, 'cut-off' as const),
    at: place,
    length,
  }),
  fc.record({ kind: fc.constant('move' as const), at: place, length, to: place }),
);
const jsonEdit: fc.Arbitrary<Edit> = fc.oneof(
  fc.record({
    kind: fc.constant('set-value' as const),
    at: place,
    value: fc.oneof(fc.constantFrom(...VALUES), number, fc.string({ maxLength: 5 })),
  }),
  fc.record({
    kind: fc.constant('rename-key' as const),
    at: place,
    key: fc.constantFrom(...KEYS),
  }),
  fc.record({
    kind: fc.constantFrom('drop' as const, 'repeat' as const, 'nest' as const),
    at: place,
  }),
  fc.record({ kind: fc.constant('set-number' as const), at: place, value: number }),
);

/** Edits of text alone, as for tables. */
export const textEdits = fc.array(textEdit, { minLength: 1, maxLength: 3 });
/** Edits of the values of a JSON text, which is still JSON afterwards. */
const jsonEdits = fc.array(jsonEdit, { minLength: 1, maxLength: 3 });
/** Damage to a JSON text: mostly to its values, else to its characters, or to both. */
export const jsonTextEdits = fc.oneof(
  { weight: 6, arbitrary: jsonEdits },
  { weight: 1, arbitrary: textEdits },
  {
    weight: 1,
    arbitrary: fc
      .tuple(jsonEdits, textEdits)
      .map(([values, characters]) => [...values, ...characters]),
  },
);

/** @returns the text after the edits, in their order */
export function mutated(text: string, edits: readonly Edit[]): string {
  const values = edits.filter(isOfValues);
  const inside = values.length === 0 ? text : withValues(text, values);
  return edits.filter(isOfText).reduce(withCharacters, inside);
}

const OF_VALUES = ['set-value', 'set-number', 'rename-key', 'drop', 'repeat', 'nest'] as const;
type ValueEdit = Extract<Edit, { kind: (typeof OF_VALUES)[number] }>;

function isOfValues(edit: Edit): edit is ValueEdit {
  return (OF_VALUES as readonly string[]).includes(edit.kind);
}

type TextEdit = Exclude<Edit, ValueEdit>;

const isOfText = (edit: Edit): edit is TextEdit => !isOfValues(edit);

function withCharacters(text: string, edit: TextEdit): string {
  const at = Math.floor(edit.at * text.length);
  switch (edit.kind) {
    case 'put-in':
      return text.slice(0, at) + edit.piece + text.slice(at);
    case 'swap-number':
      return swapped(text, at, /-?\d+(?:\.\d+)?/g, edit.piece);
    case 'swap-word':
      return swapped(text, at, /[A-Za-z_]+/g, edit.piece);
    case 'take-out':
      return text.slice(0, at) + text.slice(at + edit.length);
    case 'double':
      return text.slice(0, at + edit.length) + text.slice(at);
    case 'cut-off':
      return text.slice(0, at);
    case 'move': {
      const rest = text.slice(0, at) + text.slice(at + edit.length);
      const to = Math.floor(edit.to * rest.length);
      return rest.slice(0, to) + text.slice(at, at + edit.length) + rest.slice(to);
    }
  }
}

function swapped(text: string, from: number, pattern: RegExp, piece: string): string {
  pattern.lastIndex = from;
  const found = pattern.exec(text);
  if (found === null) return text;
  return text.slice(0, found.index) + piece + text.slice(found.index + found[0].length);
}

/** A slot of a JSON value: the object or list that holds it, and under which key. */
interface Slot {
  readonly holder: Record<string, unknown>;
  readonly key: string;
}

function withValues(text: string, edits: readonly ValueEdit[]): string {
  const root = { value: JSON.parse(text) as unknown };
  for (const edit of edits) {
    const slots = slotsOf(root).filter(
      ({ holder, key }) => edit.kind !== 'set-number' || typeof holder[key] === 'number',
    );
    const slot = slots[Math.floor(edit.at * slots.length)];
    if (slot !== undefined) change(slot, edit);
  }
  return JSON.stringify(root.value ?? null);
}

function change({ holder, key }: Slot, edit: ValueEdit): void {
  const value = holder[key];
  switch (edit.kind) {
    case 'set-value':
    case 'set-number':
      put(holder, key, edit.value);
      break;
    case 'drop':
      if (Array.isArray(holder)) holder.splice(Number(key), 1);
      else Reflect.deleteProperty(holder, key);
      break;
    case 'repeat':
      if (Array.isArray(holder)) holder.push(value);
      else put(holder, `${key}2`, value);
      break;
    case 'nest':
      put(holder, key, [value]);
      break;
    case 'rename-key':
      if (Array.isArray(holder)) break;
      Reflect.deleteProperty(holder, key);
      put(holder, edit.key, value);
      break;
  }
}

/** An assignment to `__proto__` would change the prototype, not make a key that is written out. */
function put(holder: object, key: string, value: unknown): void {
  Object.defineProperty(holder, key, {
    value,
    writable: true,
    enumerable: true,
    configurable: true,
  });
}

function slotsOf(root: object): Slot[] {
  const slots: Slot[] = [];
  const open: object[] = [root];
  for (let holder = open.pop(); holder !== undefined; holder = open.pop()) {
    for (const [key, value] of Object.entries(holder)) {
      slots.push({ holder: holder as Record<string, unknown>, key });
      if (typeof value === 'object' && value !== null) open.push(value as object);
    }
  }
  return slots;
}
