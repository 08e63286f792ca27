import { describe, expect, it } from 'vitest';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import {
  layoutFourQuadrants,
  type FourQuadrantsInput,
  type QuadrantTone,
} from './four-quadrants.layout.ts';

/** A chain of straight lines, so that every place in the drawing can be worked by hand. */
const tone = (logLuminance: number, contrast: number): QuadrantTone => ({
  logLuminance,
  logExposure: logLuminance - 1,
  negativeDensity: 0.2 + contrast * (logLuminance + 1.5),
  printDensity: 2 - 0.6 * (logLuminance + 1.5),
});
const input = (width: number): FourQuadrantsInput => ({
  width,
  title: 'Four quadrants',
  series: (['before', 'after'] as const).map((role, i) => ({
    label: role,
    role,
    tones: Array.from({ length: 31 }, (_, k) => tone(-1.5 + 0.1 * k, 0.5 + 0.1 * i)),
    cursor: tone(0, 0.5 + 0.1 * i),
  })),
  zones: ['0', 'I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII', 'IX', 'X'].map((label, i) => ({
    logLuminance: 0.30103 * (i - 5),
    label,
  })),
});

const pathOf = (width: number, name: string): string => {
  const mark = layoutFourQuadrants(input(width)).marks.find((each) => each.name === name);
  return mark?.kind === 'path' ? mark.d : '';
};
const numbersOf = (d: string): number[] => (d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

describe('layoutFourQuadrants', () => {
  it.each([320, 360, 480, 700, 1200])('keeps its labels apart and inside at %d pixels', (width) => {
    const scene = layoutFourQuadrants(input(width));
    expect(textOverlaps(scene)).toEqual([]);
    expect(textsOutside(scene)).toEqual([]);
  });

  it('draws the camera once and the rest for every negative', () => {
    const names = layoutFourQuadrants(input(800)).marks.flatMap(({ name }) => name ?? []);
    expect(names.filter((name) => name.startsWith('camera'))).toEqual(['camera-before']);
    for (const name of ['film', 'paper', 'whole', 'cursor']) {
      expect(names).toContain(`${name}-before`);
      expect(names).toContain(`${name}-after`);
    }
  });

  it('closes the way of the followed tone: two across, two up', () => {
    const way = numbersOf(pathOf(800, 'cursor-before'));
    const [, , x, y, , , across, , , , , up] = way;
    const corners = [x, y, x, y, across, y, across, y, across, up, across, up, x, up, x, up, x, y];
    expect(way.slice(2)).toEqual(corners);
    // The negative's panel lies left of the subject's, and the print's above the film's.
    expect(across).toBeLessThan(x!);
    expect(up).toBeLessThan(y!);
  });

  it('gives the same figures as a table, a row for every zone', () => {
    const { table } = layoutFourQuadrants(input(800));
    expect(table.rows).toHaveLength(11);
    // Zone V is log luminance 0: exposure -1, density 0.2 + 0.5 × 1.5, print 2 - 0.6 × 1.5.
    expect(table.rows[5]).toEqual(['V', '−1.00', '0.95', '1.10', '1.10', '1.10']);
  });

  it('stands without anything to draw', () => {
    const scene = layoutFourQuadrants({ ...input(400), series: [] });
    expect(JSON.stringify(scene)).not.toMatch(/NaN|undefined|Infinity/);
  });
});
