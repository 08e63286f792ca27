import { describe, expect, it } from 'vitest';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { textBox, type Box } from '../text/place-labels.ts';
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
  exposureKind: 'absolute',
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

/** Corners of a path, and nine points between each two. */
function pointsOf(d: string): [number, number][] {
  const n = numbersOf(d);
  const corners = Array.from({ length: n.length / 2 }, (_, i) => [n[2 * i]!, n[2 * i + 1]!]);
  return corners.flatMap(([x, y], i) => {
    const [toX, toY] = corners[i + 1] ?? [x, y];
    return Array.from({ length: 10 }, (_, k): [number, number] => [
      x! + ((toX! - x!) * k) / 10,
      y! + ((toY! - y!) * k) / 10,
    ]);
  });
}
const inside = ({ x0, y0, x1, y1 }: Box, x: number, y: number) =>
  x > x0 && x < x1 && y > y0 && y < y1;

describe('layoutFourQuadrants', () => {
  it.each([320, 360, 480, 700, 1200])('keeps its labels apart and inside at %d pixels', (width) => {
    const scene = layoutFourQuadrants(input(width));
    expect(textOverlaps(scene)).toEqual([]);
    expect(textsOutside(scene)).toEqual([]);
  });

  it.each([300, 330, 480, 700, 1200])(
    'writes the names beside the curves, whatever tone is followed, at %d pixels',
    (width) => {
      for (const [zone] of input(width).zones.entries()) {
        const at = 0.30103 * (zone - 5);
        const base = input(width);
        const series = base.series.map((one, i) => ({ ...one, cursor: tone(at, 0.5 + 0.1 * i) }));
        const { marks } = layoutFourQuadrants({ ...base, series });
        const curves = marks.flatMap((mark) =>
          mark.kind === 'path' && /^(camera|film|paper|whole)-/.test(mark.name ?? '')
            ? [pointsOf(mark.d)]
            : [],
        );
        const names = marks.flatMap((mark) =>
          mark.kind === 'text' && (mark.name ?? '').startsWith('name-') ? [mark] : [],
        );
        expect(new Set(names.map(({ name }) => name)).size).toBe(4);
        for (const mark of names) {
          const box = textBox(mark.text, mark.size, mark, true);
          const hit = curves.some((points) => points.some(([x, y]) => inside(box, x, y)));
          expect(hit, `${mark.text}, zone ${zone}`).toBe(false);
        }
      }
    },
  );

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
