import { noChange } from 'lit';
import { expect, it, vi } from 'vitest';
import { Unchanged } from './unchanged.ts';

const rendering = (unchanged: Unchanged, entries: Readonly<Record<string, readonly unknown[]>>) => {
  unchanged.begin();
  return Object.entries(entries).map(([key, from]) =>
    unchanged.draw(key, from, () => `${key} drawn`),
  );
};

it('draws what is new or made of something else, and leaves the rest', () => {
  const unchanged = new Unchanged();
  const row = { density: 1 };
  expect(rendering(unchanged, { a: [row, 1], b: [row, NaN] })).toEqual(['a drawn', 'b drawn']);
  expect(rendering(unchanged, { a: [row, 1], b: [row, NaN] })).toEqual([noChange, noChange]);
  expect(rendering(unchanged, { a: [{ density: 1 }, 1], b: [row, NaN] })).toEqual([
    'a drawn',
    noChange,
  ]);
  expect(rendering(unchanged, { a: [row, 1, undefined], b: [row, NaN] })).toEqual([
    'a drawn',
    noChange,
  ]);
});

it('draws anew what was away for a rendering', () => {
  const unchanged = new Unchanged();
  rendering(unchanged, { a: [1], b: [1] });
  rendering(unchanged, { a: [1] });
  expect(rendering(unchanged, { a: [1], b: [1] })).toEqual([noChange, 'b drawn']);
});

it('asks for no drawing that it does not use', () => {
  const unchanged = new Unchanged();
  const draw = vi.fn();
  for (let time = 0; time < 3; time++) {
    unchanged.begin();
    unchanged.draw('a', ['the same'], draw);
  }
  expect(draw).toHaveBeenCalledOnce();
});
