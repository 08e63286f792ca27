/** The name that was probably meant. */

/** Letters that may differ, by the length of what was written. */
const mostChanges = (written: string): number => (written.length < 5 ? 1 : 2);

/**
 * @param written - what was typed
 * @param names - those that there are
 * @returns the nearest name, or null where none is near; capitals do not count
 */
export function nearestName(written: string, names: readonly string[]): string | null {
  const typed = written.toLowerCase();
  let best: string | null = null;
  let fewest = mostChanges(typed) + 1;
  for (const name of names) {
    const changes = changesBetween(typed, name.toLowerCase());
    if (changes >= fewest) continue;
    fewest = changes;
    best = name;
  }
  return best;
}

/** Letters to put in, take out, replace or exchange with their neighbour. */
function changesBetween(a: string, b: string): number {
  let [before, last]: readonly [readonly number[], readonly number[]] = [
    [],
    Array.from({ length: b.length + 1 }, (_, j) => j),
  ];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      const exchanged = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row.push(
        Math.min(
          (last[j] ?? Infinity) + 1,
          (row[j - 1] ?? Infinity) + 1,
          (last[j - 1] ?? Infinity) + (same ? 0 : 1),
          exchanged ? (before[j - 2] ?? Infinity) + 1 : Infinity,
        ),
      );
    }
    [before, last] = [last, row];
  }
  return last[b.length] ?? Infinity;
}
