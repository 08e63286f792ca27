/**
 * The ISO speed series and its rounding. Known: published (the series as in ISO 5800:1987 and
 * ANSI PH2.5-1979; H_m 0.0064 gives 125/22°); the other checks derived from S = 0.8 / H_m and
 * S° = 1 + 10 log10 S.
 */
import { describe, expect, it } from 'vitest';
import { isoSpeed, isoSpeedOfDegrees } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const SERIES =
  '0.8/0 1/1 1.2/2 1.6/3 2/4 2.5/5 3/6 4/7 5/8 6/9 8/10 10/11 12/12 16/13 20/14 25/15 32/16 40/17 50/18 64/19 80/20 100/21 125/22 160/23 200/24 250/25 320/26 400/27 500/28 640/29 800/30 1000/31 1250/32 1600/33 2000/34 2500/35 3200/36 4000/37 5000/38 6400/39';

describe('[ISO5800] speed series', () => {
  it.each(SERIES.split(' ').map((pair) => pair.split('/').map(Number)))(
    'ISO %f belongs to %i°',
    (arithmetic, degrees) => {
      expect(isoSpeedOfDegrees(degrees)).toBe(arithmetic);
    },
  );
});

describe('[ISO6] speed from the exposure of the speed point', () => {
  it('published: 0.0064 lx s is 125/22°', () => {
    expect(isoSpeed(Math.log10(0.0064))).toMatchObject({ arithmetic: 125, degrees: 22 });
  });
  it.each([
    [0.008, 100, 21],
    [0.002, 400, 27],
    [0.00857, 100, 21],
  ])('derived: %f lx s is %i/%i°', (exposure, arithmetic, degrees) => {
    expect(isoSpeed(Math.log10(exposure))).toMatchObject({ arithmetic, degrees });
  });
  it('derived: 0.00857 lx s is exactly 93.3', () => {
    expectWithin(isoSpeed(Math.log10(0.00857)).exact, 93.3, printedTo(1) + 0.01);
  });
  it('derived: 100/21° covers log H_m from -2.1469 to -2.0469', () => {
    for (const inside of [-2.1468, -2.097, -2.047]) expect(isoSpeed(inside).degrees).toBe(21);
    expect(isoSpeed(-2.147).degrees).toBe(22);
    expect(isoSpeed(-2.0468).degrees).toBe(20);
  });
  it('rounds through the degrees: S = 71 is 80/20°, though 64 is the nearer number', () => {
    expect(isoSpeed(Math.log10(0.8 / 71))).toMatchObject({ arithmetic: 80, degrees: 20 });
  });
  it.each([NaN, Infinity, -Infinity])('refuses a log exposure of %f', (x) => {
    expect(() => isoSpeed(x)).toThrow();
    expect(() => isoSpeedOfDegrees(x)).toThrow();
  });
});
