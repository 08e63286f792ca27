import { describe, expect, it } from 'vitest';
import { fitToeShoulder } from './fit-toe-shoulder.ts';
import { toeOnly } from './models/toe-only.ts';
import { randomNormal } from './random-normal.ts';

const STEPS = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const STRAIGHT = [0.12, 0.6, -2.1, 0.25];

describe('fitToeShoulder', () => {
  it('takes no shoulder from the last reading alone, and rounding does not decide', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const z = randomNormal(seed);
      const y = STEPS.map((x) => toeOnly.value(x, STRAIGHT) + 0.01 * z());
      // The last reading low, as a hard corner between it and the one before would have it.
      y[20] = (y[20] ?? 0) - 0.03;
      const fit = fitToeShoulder(STEPS, y);
      const nudged = fitToeShoulder(
        STEPS,
        y.map((value, i) => value + 1e-12 * Math.sin(7 * i)),
      );
      expect(nudged.shoulder, `seed ${seed}`).toBe(fit.shoulder);
      if (fit.shoulder === 'determined') expect(fit.fit.parameters[5]).toBeGreaterThan(0.01);
    }
  });

  it('follows a hard corner that several readings lie beyond', () => {
    // As a densitometer shows that reads no higher than 1.20.
    const y = STEPS.map((x) => Math.min(1.2, toeOnly.value(x, STRAIGHT)));
    const { shoulder, fit } = fitToeShoulder(STEPS, y);
    expect(shoulder).toBe('determined');
    expect(fit.residualStandardDeviation).toBeLessThan(0.002);
  });
});
