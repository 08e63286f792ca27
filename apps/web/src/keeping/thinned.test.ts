import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thinned, type SnapshotFacts } from './thinned.ts';

const HOUR = 3_600_000;
const NOW = Date.parse('2026-11-26T12:00:00Z');
type Some = Pick<SnapshotFacts, 'number' | 'at' | 'reason'>;
const every = (count: number, milliseconds: number): Some[] =>
  Array.from({ length: count }, (_, index) => ({
    number: count - index,
    at: new Date(NOW - index * milliseconds).toISOString(),
    reason: 'in-passing' as const,
  }));
const left = (all: readonly Some[], now = NOW) => {
  const dropped = new Set(thinned(all, now));
  return all.filter(({ number }) => !dropped.has(number));
};

describe('thinned', () => {
  it('keeps the last ten, then one an hour of the last day', () => {
    const kept = left(every(144, HOUR / 6));
    // The newest ten reach back 1.5 hours; 22 to 24 more hours have one each.
    expect(kept.length).toBeGreaterThanOrEqual(31);
    expect(kept.length).toBeLessThanOrEqual(34);
    expect(kept.slice(0, 10).map(({ number }) => number)).toEqual(
      Array.from({ length: 10 }, (_, index) => 144 - index),
    );
  });

  it('keeps one a day of the last month, and one a month before', () => {
    const kept = left(every(400, 24 * HOUR));
    expect(kept.length).toBeGreaterThan(40);
    expect(kept.length).toBeLessThanOrEqual(46);
    expect(NOW - Date.parse(kept.at(-1)?.at ?? '')).toBeGreaterThan(360 * 24 * HOUR);
  });

  it('never keeps more than sixty', () => {
    const asked = every(200, HOUR).map((one) => ({ ...one, reason: 'by-hand' as const }));
    expect(left(asked)).toHaveLength(60);
  });

  it('keeps the newest by number where the clock was set back', () => {
    const before = every(30, HOUR);
    const later = Array.from({ length: 10 }, (_, minute) => ({
      number: 31 + minute,
      at: `2001-01-01T00:0${minute}:00.000Z`,
      reason: 'in-passing' as const,
    }));
    // While the clock is wrong, and once it is right again.
    for (const now of [Date.parse('2001-01-01T00:10:00Z'), NOW]) {
      const kept = left([...before, ...later], now);
      for (const each of later) expect(kept).toContainEqual(each);
      expect(kept.length).toBeGreaterThan(later.length);
    }
  });

  it('is done after once, whatever the times', () => {
    const at = fc.oneof(
      fc.date({ noInvalidDate: true }).map((date) => date.toISOString()),
      fc.constant('no time at all'),
    );
    fc.assert(
      fc.property(fc.array(at, { maxLength: 80 }), (times) => {
        const all = times.map((each, number) => ({ number, at: each, reason: 'by-hand' as const }));
        const kept = left(all);
        expect(kept.length).toBe(Math.min(60, all.length));
        expect(thinned(kept, NOW)).toEqual([]);
      }),
    );
  });
});
