import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { formatReading, parseNumber, parseReading, shortest } from './parse-cell.ts';

const value = (typed: string, unit: 'density' | 'transmittance' | 'stops' = 'density') => {
  const parsed = parseReading(typed, unit);
  return parsed.status === 'read' ? parsed.value : parsed.status;
};

describe('parseNumber', () => {
  it.each([
    ['1.25', 1.25],
    ['1,25', 1.25],
    [' .5 ', 0.5],
    ['−0,02', -0.02],
    ['–2', -2],
    ['1e-2', 0.01],
    ['2.', 2],
  ])('reads %j as %f', (typed, expected) => {
    expect(parseNumber(typed)).toEqual({ status: 'read', value: expected });
  });
  it.each(['', ' ', '-', '–', 'n/a', 'NaN'])('takes %j as not read', (typed) => {
    expect(parseNumber(typed).status).toBe('empty');
  });
  it.each(['abc', '1.2.3', '1,234,5', '0.5x', '1/2', 'Infinity', '0x10'])(
    'does not read %j, and names it in a sentence',
    (typed) => {
      const parsed = parseNumber(typed);
      expect(parsed.status).toBe('wrong');
      expect(parsed.status === 'wrong' && parsed.sentence).toContain(typed);
    },
  );
});

describe('parseReading', () => {
  it('turns transmittance and stops into density (D = −log10 T; a stop is log10 2)', () => {
    expectWithin(Number(value('0.01', 'transmittance')), 2, 1e-12);
    expectWithin(Number(value('25 %', 'transmittance')), 0.60206, 5e-6);
    expectWithin(Number(value('2', 'stops')), 0.60206, 5e-6);
  });
  it.each(['-0.6', '6.1', '152'])('refuses a density of %s as a slip of the pen', (typed) => {
    expect(value(typed)).toBe('wrong');
  });
  it('accepts a slightly negative density, by density or by transmittance', () => {
    expect(value('-0.02')).toBe(-0.02);
    expectWithin(Number(value('1.02', 'transmittance')), -0.0086, 5e-5);
  });
  it.each(['0', '-1', '5'])('refuses a transmittance of %s', (typed) => {
    expect(value(typed, 'transmittance')).toBe('wrong');
  });
});

describe('what a cell shows', () => {
  it('reads back as the value', () => {
    for (const unit of ['density', 'transmittance', 'stops'] as const) {
      for (const density of [0, 0.05, 0.615, 1.2, 3.05, -0.02]) {
        const again = parseReading(formatReading(density, unit), unit);
        expectWithin(again.status === 'read' ? again.value : NaN, density, 0.0005, unit);
      }
    }
  });
  it('shows two decimals of a density, more where they were typed', () => {
    expect(formatReading(1.5, 'density')).toBe('1.50');
    expect(formatReading(0.615, 'density')).toBe('0.615');
    expect(shortest(20, 0, 2)).toBe('20');
    expect(shortest(6.5, 0, 2)).toBe('6.5');
    expect(shortest(-0.5, 0, 1)).toBe('−0.5');
  });
});
