import type { WarningCode } from '@wedgebook/core';
import { describe, expect, it } from 'vitest';
import { WARNING_TEXT, warningText } from './warning-text.ts';

const codes = Object.keys(WARNING_TEXT) as WarningCode[];

describe('warningText', () => {
  it.each(codes)('%s reads as a sentence with a remedy, with and without figures', (code) => {
    for (const details of [{}, { count: 2, beyond: 0.123, measure: 'gamma', strip: 'A' }]) {
      const text = warningText({ code, details });
      expect(text).toMatch(/^[A-Z0-9].+\.$/s);
      expect(text).not.toMatch(/undefined|null|NaN|\bobject\b| {2}| ,| \./);
      // What is the matter, and what to do: at least two statements.
      expect(text.split(/[.;:] /).length).toBeGreaterThan(1);
    }
  });

  it('asks for no harder paper where the range would have to shrink', () => {
    const told = (reason: string) =>
      warningText({
        code: 'target-not-reachable',
        details: { reason, gainNeeded: 0.67, maximumGain: 1.19 },
      });
    expect(told('needs-reduction')).toMatch(/a gain of 0\.67.+softer paper grade/);
    expect(told('needs-more-gain')).toMatch(/gain of 0\.67 .+at most 1\.19 .+harder paper grade/);
  });

  it('bounds a probability that rounds to nothing', () => {
    const told = (pValue: number) => warningText({ code: 'lack-of-fit', details: { pValue } });
    expect(told(0.0312)).toContain('(p = 0.0312)');
    expect(told(1e-9)).toContain('(p < 0.0001)');
  });

  it('quotes the figures that it is given', () => {
    const text = warningText({
      code: 'iso-triangle-not-met',
      details: { rise: 0.6543, tolerance: 0.05 },
    });
    expect(text).toContain('rises by 0.65');
    expect(text).toContain('0.80 ± 0.05');
  });
});
