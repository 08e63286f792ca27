import fc from 'fast-check';
import { expect, it } from 'vitest';
import { hatch } from './hatch.ts';

it('stays inside its rectangle', () => {
  const size = fc.integer({ min: 1, max: 200 });
  fc.assert(
    fc.property(size, size, (width, height) => {
      const numbers = hatch(10, 20, width, height).match(/-?\d+(\.\d+)?/g) ?? [];
      numbers.map(Number).forEach((value, i) => {
        const [low, high] = i % 2 === 0 ? [10, 10 + width] : [20, 20 + height];
        expect(value >= low - 0.01 && value <= high + 0.01).toBe(true);
      });
    }),
  );
});

it('is nothing where there is no area', () => {
  expect(hatch(0, 0, 0, 10)).toBe('');
  expect(hatch(0, 0, 10, NaN)).toBe('');
});
