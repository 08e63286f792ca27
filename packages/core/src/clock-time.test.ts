import { describe, expect, it } from 'vitest';
import { clockTime } from './clock-time.ts';
import { InvalidArgumentError } from './errors.ts';

describe('clockTime', () => {
  it.each([
    [6.5, '6:30'],
    [0, '0:00'],
    [59.999, '60:00'],
    [2.1, '2:06'],
  ])('%f min shows as %s', (minutes, shown) => {
    expect(clockTime(minutes)).toBe(shown);
  });

  it('rounds to the step it is given, over the minute too', () => {
    expect(clockTime(6.54, 5)).toBe('6:30');
    expect(clockTime(6.99, 15)).toBe('7:00');
  });

  it.each([NaN, -1, Infinity])('refuses %f minutes', (minutes) => {
    expect(() => clockTime(minutes)).toThrow(InvalidArgumentError);
  });

  it.each([0, 7, NaN])('refuses a step of %f seconds', (step) => {
    expect(() => clockTime(1, step)).toThrow(InvalidArgumentError);
  });
});
