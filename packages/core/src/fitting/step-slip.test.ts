import { describe, expect, it } from 'vitest';
import { fitModel } from './fit-model.ts';
import { toeShoulder } from './models/toe-shoulder.ts';
import { randomNormal } from './random-normal.ts';
import { stepSlip } from './step-slip.ts';
import { stepSlipBySmooth } from './step-slip-by-smooth.ts';

const STEPS = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const TRUTH = [0.1, 0.65, -2.3, 0.15, -0.5, 0.22];
const form = {
  model: toeShoulder,
  fit: (x: readonly number[], y: readonly number[]) => fitModel(toeShoulder, x, y),
};

/** Densities of the steps of those numbers, with errors of 0.005. */
function read(steps: readonly number[], seed: number): number[] {
  const z = randomNormal(seed);
  return steps.map((step) => toeShoulder.value(-3 + 0.15 * step, TRUTH) + 0.005 * z());
}

describe('stepSlip', () => {
  it('finds a step that was skipped, and where', () => {
    const slip = stepSlip(
      STEPS,
      read(
        STEPS.map((_, i) => (i < 9 ? i : i + 1)),
        3,
      ),
      form,
    );
    expect(slip?.kind).toBe('step-skipped');
    expect(STEPS.indexOf(slip!.from)).toBe(9);
    expect(slip!.moved).toBeLessThan(slip!.written / 2);
    expect(slip!.exposures.slice(0, 9)).toEqual(STEPS.slice(0, 9));
    expect(slip!.exposures.slice(9, -1)).toEqual(STEPS.slice(10));
  });

  it('finds a step that was read twice, and where', () => {
    const slip = stepSlip(
      STEPS,
      read(
        STEPS.map((_, i) => (i < 12 ? i : i - 1)),
        5,
      ),
      form,
    );
    expect(slip?.kind).toBe('step-doubled');
    expect(STEPS.indexOf(slip!.from)).toBe(12);
  });

  it('tells nothing of good strips, nor of one bad reading', () => {
    for (let seed = 10; seed < 30; seed++) {
      const good = read(
        STEPS.map((_, i) => i),
        seed,
      );
      expect(stepSlip(STEPS, good, form)).toBeNull();
      const bad = good.map((value, i) => (i === 10 ? value + 0.4 : value));
      expect(stepSlip(STEPS, bad, form)).toBeNull();
    }
  });

  it('has nothing to say on a short strip or an exact fit', () => {
    expect(stepSlip(STEPS.slice(0, 7), read([0, 1, 2, 3, 5, 6, 7], 1), form)).toBeNull();
    expect(
      stepSlip(
        STEPS,
        STEPS.map(() => 0.3),
        form,
      ),
    ).toBeNull();
  });

  it('tells nothing of exact readings that another form misses by less than two decimals hold', () => {
    // A toe with a corner, which the form rounds off a little.
    const corner = STEPS.map((x) => 0.12 + Math.max(0, 0.65 * (x + 2.4)));
    expect(stepSlip(STEPS, corner, form)).toBeNull();
  });

  it('does not touch the readings', () => {
    const y = Object.freeze(
      read(
        STEPS.map((_, i) => (i < 9 ? i : i + 1)),
        3,
      ),
    );
    expect(() => stepSlip(Object.freeze([...STEPS]), y, form)).not.toThrow();
  });
});

describe('stepSlipBySmooth', () => {
  const two = (x: number): number =>
    0.2 + 0.55 / (1 + Math.exp(-(x + 1.9) / 0.17)) + 0.85 / (1 + Math.exp(-(x + 0.7) / 0.24));
  const readTwo = (steps: readonly number[], seed: number): number[] => {
    const z = randomNormal(seed);
    return steps.map((step) => two(-3 + 0.15 * step) + 0.005 * z());
  };
  const order = STEPS.map((_, i) => i);

  it('finds a step skipped on a strip of two emulsions, which no family fits', () => {
    const skipped = order.map((i) => (i < 15 ? i : i + 1));
    const slip = stepSlipBySmooth(STEPS, readTwo(skipped, 4));
    expect(slip?.kind).toBe('step-skipped');
    expect(Math.abs(STEPS.indexOf(slip!.from) - 15)).toBeLessThanOrEqual(1);
    expect(slip!.moved).toBeLessThan(slip!.written);
  });

  it('tells nothing of good strips', () => {
    for (let seed = 10; seed < 40; seed++) {
      expect(stepSlipBySmooth(STEPS, readTwo(order, seed))).toBeNull();
    }
  });

  it('has nothing to say on a short strip', () => {
    expect(stepSlipBySmooth(STEPS.slice(0, 7), readTwo(order.slice(0, 7), 1))).toBeNull();
  });
});
