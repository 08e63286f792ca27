/** Changes to immutable lists and objects that keep the identity of what did not change. */
import { InvalidArgumentError } from '@wedgebook/core';

/**
 * @returns `object` with `changes`; the same object where every change is already so
 */
export function changed<T extends object>(object: T, changes: Partial<T>): T {
  const keys = Object.keys(changes) as (keyof T)[];
  return keys.every((key) => sameJson(object[key], changes[key]))
    ? object
    : { ...object, ...changes };
}

/** @returns the list with `entries` before `index`, which is held within the list */
export function insertedAt<T>(
  list: readonly T[],
  index: number,
  entries: readonly T[],
): readonly T[] {
  requireIndex('insertedAt', index);
  return [...list.slice(0, index), ...entries, ...list.slice(index)];
}

export function replacedAt<T>(
  list: readonly T[],
  index: number,
  replace: (entry: T) => T,
): readonly T[] {
  const before = list[index];
  if (before === undefined) return list;
  const after = replace(before);
  return Object.is(before, after) ? list : list.with(index, after);
}

export function removedAt<T>(list: readonly T[], index: number, count: number): readonly T[] {
  requireIndex('removedAt', index);
  requireIndex('removedAt', count);
  return count === 0 || index >= list.length
    ? list
    : [...list.slice(0, index), ...list.slice(index + count)];
}

export function movedTo<T>(list: readonly T[], from: number, to: number): readonly T[] {
  requireIndex('movedTo', to);
  if (from === Math.min(to, list.length - 1)) return list;
  const moved = list.slice(from, from + 1);
  return insertedAt(removedAt(list, from, 1), to, moved);
}

/**
 * @returns the index of the entry with this id
 * @throws {InvalidArgumentError} if there is none
 */
export function indexOfId(
  list: readonly { readonly id: string }[],
  id: string,
  argument: string,
): number {
  const index = list.findIndex((entry) => entry.id === id);
  if (index < 0) {
    throw new InvalidArgumentError('applyCommand', argument, id, 'the id of an existing entry');
  }
  return index;
}

/** @throws {InvalidArgumentError} unless `index` is a whole number from 0 */
export function requireIndex(functionName: string, index: number): void {
  if (!(Number.isSafeInteger(index) && index >= 0)) {
    throw new InvalidArgumentError(functionName, 'index', index, 'a whole number from 0');
  }
}

/** Equality of plain JSON values. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every(
    (key) =>
      Object.hasOwn(b, key) &&
      sameJson((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}
