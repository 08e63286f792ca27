import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import {
  GAIN_LAWS,
  gainDerivatives,
  PROPORTIONAL,
  treatedNetDensity,
  type GainLaw,
} from './gain-law.ts';
import { effectiveGain, printingRange } from './stain.ts';

const lawOf = (family: GainLaw['family'], exponent = 1.3): GainLaw => ({
  family,
  exponent,
  referenceDensity: 1.2,
});

describe.each(GAIN_LAWS)('gain law %s', (family) => {
  const law = lawOf(family);
  const k = family === 'shift' ? 0.8 : 1.2;

  it('has its gain at the reference density', () => {
    for (const gain of family === 'shift' ? [0.6, 1] : [0.6, 1, 1.25]) {
      expectWithin(treatedNetDensity(1.2, gain, law), 1.2 * gain, 1e-12);
    }
  });

  it('never falls with the density before', () => {
    let before = -Infinity;
    for (let u = 0; u <= 3; u += 0.01) {
      const v = treatedNetDensity(u, k, law);
      expect(v).toBeGreaterThanOrEqual(before - 1e-12);
      before = v;
    }
  });

  it('has the derivatives of finite differences, on both sides of the straight piece', () => {
    const h = 1e-6;
    for (const u of [0.01, 0.4, 1.7]) {
      const d = gainDerivatives(u, k, law);
      const slope = (at: (step: number) => number) => (at(h) - at(-h)) / (2 * h);
      expectWithin(
        d.byDensity,
        slope((s) => gainDerivatives(u + s, k, law).value),
        1e-6,
      );
      expectWithin(
        d.byGain,
        slope((s) => gainDerivatives(u, k + s, law).value),
        1e-6,
      );
      const exponential = family === 'power' || family === 'intensifier-safe';
      if (!exponential) continue;
      expectWithin(
        d.byExponent,
        slope((s) => gainDerivatives(u, k, lawOf(family, 1.3 + s)).value),
        1e-6,
      );
      expectWithin(
        d.byDensityAndGain,
        slope((s) => gainDerivatives(u, k + s, law).byDensity),
        1e-6,
      );
      expectWithin(
        d.byDensityAndExponent,
        slope((s) => gainDerivatives(u, k, lawOf(family, 1.3 + s)).byDensity),
        1e-6,
      );
    }
  });

  it('takes readings at and slightly below zero without a jump', () => {
    const near = treatedNetDensity(1e-9, k, law);
    expectWithin(treatedNetDensity(0, k, law), near, 1e-6);
    expect(Number.isFinite(treatedNetDensity(-0.01, k, law))).toBe(true);
  });

  it.each([NaN, Infinity, -Infinity])('refuses %f', (bad) => {
    expect(() => treatedNetDensity(bad, 1.2, law)).toThrow(InvalidArgumentError);
    expect(() => treatedNetDensity(1, bad, law)).toThrow(InvalidArgumentError);
    expect(() => treatedNetDensity(1, 1.2, { ...law, exponent: bad })).toThrow(
      InvalidArgumentError,
    );
    expect(() => treatedNetDensity(1, 0, law)).toThrow(InvalidArgumentError);
  });
});

it('the intensifier-safe form never lowers a density and changes nothing at a gain of 1', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 4, noNaN: true }),
      fc.double({ min: 1, max: 2, noNaN: true }),
      fc.double({ min: 0.2, max: 5, noNaN: true }),
      (u, gain, exponent) => {
        const law = lawOf('intensifier-safe', exponent);
        expect(treatedNetDensity(u, gain, law)).toBeGreaterThanOrEqual(u - 1e-12);
        expectWithin(treatedNetDensity(u, 1, law), u, 1e-12);
      },
    ),
  );
});

describe('stain', () => {
  it('changes nothing where there is none', () => {
    expect(effectiveGain(1.17, { stain: 0 })).toBe(1.17);
    const range = printingRange(
      { value: 1, standardError: 0.02 },
      { callierFactor: 1.2, stain: 0 },
    );
    expectWithin(range.value, 1.2, 1e-12);
    expectWithin(range.standardError!, 0.024, 1e-12);
  });

  it('is not magnified by condenser light', () => {
    // Silver 1.0 and stain 0.5 of it: Q acts on the silver alone.
    const range = printingRange(
      { value: 1.5, standardError: null },
      { callierFactor: 1.2, stain: 0.5 },
    );
    expectWithin(range.value, 1.2 * 1 + 0.5, 1e-12);
    expect(range.standardError).toBeNull();
  });

  it.each([NaN, -0.1, 6])('refuses a stain of %f', (stain) => {
    expect(() => effectiveGain(1.1, { stain })).toThrow(InvalidArgumentError);
  });
  it.each([NaN, -0.1, 1.1])('refuses to keep %f of it', (stainKept) => {
    expect(() => effectiveGain(1.1, { stain: 0.3, stainKept })).toThrow(InvalidArgumentError);
  });
  it('refuses a gain or a Callier factor that is none', () => {
    expect(() => effectiveGain(NaN, { stain: 0 })).toThrow(InvalidArgumentError);
    const one = { value: 1, standardError: null };
    expect(() => printingRange(one, { callierFactor: NaN, stain: 0 })).toThrow();
  });
});

it('a surface reducer adds nothing', () => {
  expect(() => treatedNetDensity(1, 1.1, lawOf('shift'))).toThrow(InvalidArgumentError);
});

it('PROPORTIONAL is the proportional law', () => {
  expect(treatedNetDensity(0.8, 1.25, PROPORTIONAL)).toBe(1);
});
