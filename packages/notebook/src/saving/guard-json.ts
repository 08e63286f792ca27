/**
 * Reads JSON text of unknown origin without trusting its size, its depth or its keys.
 */
import { InputError, type Place } from '../notebook-error.ts';

/** The longest saved notebook that is read: about 50 million characters. */
export const MOST_NOTEBOOK_CHARACTERS = 50_000_000;
const MOST_DEPTH = 32;

/**
 * Parses JSON, refusing text that is too long, nested deeper than any notebook, or with a key that
 * could reach an object's prototype.
 *
 * @returns plain data
 * @throws {InputError} `notebook-too-large`, `notebook-not-json`, `notebook-too-deep`,
 * `notebook-unsafe-key`
 */
export function guardedJson(text: string, place: Place = {}): unknown {
  if (text.length > MOST_NOTEBOOK_CHARACTERS) {
    throw new InputError(
      'notebook-too-large',
      place,
      `the text has ${text.length} characters, a notebook has at most ${MOST_NOTEBOOK_CHARACTERS}`,
      'Check that this is a saved notebook',
    );
  }
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    throw new InputError(
      'notebook-not-json',
      place,
      'the text is not complete JSON',
      'Choose a file that was saved as a notebook, or an older copy of it',
    );
  }
  requireSafe(value, place);
  return value;
}

function requireSafe(root: unknown, place: Place): void {
  // A stack of our own: text nested a million deep must not exhaust the engine's.
  const stack: { value: unknown; depth: number }[] = [{ value: root, depth: 0 }];
  for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
    const { value, depth } = next;
    if (typeof value !== 'object' || value === null) continue;
    if (depth >= MOST_DEPTH) {
      throw new InputError(
        'notebook-too-deep',
        place,
        `the text is nested more than ${MOST_DEPTH} deep`,
        'Check that this is a saved notebook',
      );
    }
    for (const key of Object.keys(value)) {
      if (key === '__proto__') {
        throw new InputError(
          'notebook-unsafe-key',
          place,
          'the text has a key "__proto__", which no notebook has',
          'Do not open this file; choose another copy',
        );
      }
      stack.push({ value: (value as Record<string, unknown>)[key], depth: depth + 1 });
    }
  }
}
