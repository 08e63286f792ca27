/**
 * Numbers that overflow are no answer: null, never NaN or Infinity.
 */

/** The list, or null where one of its numbers is not finite. */
export function finiteOrNull<T extends readonly number[]>(list: T): T | null {
  for (let i = 0; i < list.length; i++) if (!Number.isFinite(list[i])) return null;
  return list;
}
