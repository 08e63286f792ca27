import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { formatMinutes, formatNumber, formatSigned, formatStops } from './format.ts';
import { textWidth } from './text-width.ts';

describe('numbers in text', () => {
  it('have a true minus sign and never a negative zero', () => {
    expect(formatNumber(-1.25, 2)).toBe('−1.25');
    expect(formatNumber(-0.001, 2)).toBe('0.00');
    expect(formatSigned(0.2, 1)).toBe('+0.2');
    expect(formatSigned(-0.2, 1)).toBe('−0.2');
    expect(formatSigned(0, 1)).toBe('0.0');
  });
  it('become a dash where there is no number', () => {
    expect(formatNumber(NaN, 2)).toBe('–');
  });
  it('carry their unit, singular where it is one', () => {
    expect(formatStops(0.30103)).toBe('1.0 stop');
    expect(formatStops(0.15)).toBe('0.5 stops');
    expect(formatMinutes(6.5)).toBe('6.5 min');
    expect(formatMinutes(7)).toBe('7 min');
  });
});

describe('textWidth', () => {
  it('grows with the size, and is wider for the heavy weight', () => {
    expect(textWidth('density', 12, true)).toBeGreaterThan(textWidth('density', 12));
    expectWithin(textWidth('density', 24), 2 * textWidth('density', 12), 1e-9);
    expect(textWidth('', 12)).toBe(0);
  });
});

describe('textWidth against the published advance widths of the common sans-serif text face', () => {
  // Adobe Font Metrics of the Helvetica family, published by Adobe: figures 556, space 278, m 833.
  it('is never narrower than the metrics say, and at most a tenth wider', () => {
    const metrics = ((6 * 556 + 278 + 833) / 1000) * 12;
    const width = textWidth('123456 m', 12);
    expect(width).toBeGreaterThanOrEqual(metrics);
    expect(width).toBeLessThan(1.1 * metrics);
  });
});
