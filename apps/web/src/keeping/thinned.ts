/**
 * Which snapshots make room: the newest always stay; older ones are thinned to one an hour, one a
 * day, one a month. Numbers, not clocks, tell which is newer, so that a clock that was set back
 * loses nothing.
 */

/** What is known of a snapshot without opening it. */
export interface SnapshotFacts {
  /** Counts up with every snapshot. */
  readonly number: number;
  /** Time by the computer's clock. */
  readonly at: string;
  readonly reason: SnapshotReason;
  readonly title: string;
  readonly strips: number;
  readonly negatives: number;
  readonly papers: number;
  readonly prints: number;
  /** Length of its text. */
  readonly characters: number;
}

export type SnapshotReason =
  /** The notebook as it was opened, or after a while of changes. */
  | 'in-passing'
  | 'by-hand'
  | 'before-replacing'
  | 'before-merging'
  | 'before-going-back'
  /** What another tab kept, before both were merged. */
  | 'other-tab'
  /** Changes of a page that was closed before they were written. */
  | 'left-in-haste'
  /** What could not be opened. */
  | 'unreadable';

const ALWAYS = 10;
const MOST = 60;
const HOUR = 3_600_000;
const DAY = 24 * HOUR;
/** Ages up to which one is kept in every so long. */
const LADDER = [
  { age: DAY, every: HOUR },
  { age: 31 * DAY, every: DAY },
  { age: Infinity, every: 30 * DAY },
] as const;

/**
 * @param snapshots - in any order
 * @param now - milliseconds of the clock
 * @returns the numbers of those to be deleted
 */
export function thinned(
  snapshots: readonly Pick<SnapshotFacts, 'number' | 'at' | 'reason'>[],
  now: number,
): readonly number[] {
  const newestFirst = snapshots.toSorted((a, b) => b.number - a.number);
  const taken = new Set<string>();
  const kept = newestFirst.filter(({ at, reason }, index) => {
    const time = Date.parse(at);
    const age = Number.isNaN(time) ? 0 : Math.max(0, now - time);
    const rung = LADDER.find((each) => age <= each.age) ?? LADDER[2];
    const place = `${rung.every} ${Math.floor(time / rung.every)}`;
    const isFirst = !taken.has(place);
    taken.add(place);
    // What was never seen whole, and what the user asked for, is not thinned by age.
    return index < ALWAYS || isFirst || reason === 'by-hand' || reason === 'unreadable';
  });
  const staying = new Set(kept.slice(0, MOST).map(({ number }) => number));
  return snapshots.flatMap(({ number }) => (staying.has(number) ? [] : [number]));
}
