import { describe, expect, it } from 'vitest';
import { nameOfEnd } from './name-of-end.ts';

const picture = { width: 600, height: 400 };
const SIZE = 14;

describe('the name of a marked end', () => {
  it('stands above the outline of a level strip, on the side of its end', () => {
    const place = { from: { x: 50, y: 130 }, to: { x: 550, y: 130 }, width: 80 };
    const first = nameOfEnd('tablet', place, 'from', SIZE, picture);
    const last = nameOfEnd('tablet', place, 'to', SIZE, picture);
    // The upper edge lies at 130 - 40; letters reach a quarter of their size below the base line.
    expect(first.y + SIZE / 4).toBeLessThan(90);
    expect(last.y).toBe(first.y);
    expect([first.anchor, last.anchor]).toEqual(['start', 'end']);
  });

  it('goes below the outline where the picture ends', () => {
    const place = { from: { x: 50, y: 30 }, to: { x: 550, y: 30 }, width: 50 };
    const { y } = nameOfEnd('tablet', place, 'from', SIZE, picture);
    expect(y - SIZE).toBeGreaterThan(55);
  });

  it('stands outside both ends of an upright strip, either strip on a line of its own', () => {
    const place = { from: { x: 200, y: 60 }, to: { x: 200, y: 340 }, width: 80 };
    const beside = { ...place, from: { x: 400, y: 60 }, to: { x: 400, y: 340 } };
    const [top, foot] = (['from', 'to'] as const).map((end) =>
      nameOfEnd('tablet', place, end, SIZE, picture),
    );
    const other = nameOfEnd('strip', beside, 'from', SIZE, picture);
    expect(top!.y).toBeLessThan(60);
    expect(foot!.y - SIZE).toBeGreaterThan(340);
    expect(Math.abs(other.y - top!.y)).toBeGreaterThan(SIZE);
  });
});
