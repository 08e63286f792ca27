import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Scene } from '../scene/mark.ts';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { formatNumber } from '../text/format.ts';
import { layoutWaysChart, type WaysChartInput } from './ways-chart.layout.ts';

const BANDS = [
  ['0', 1.4, 1.7],
  ['1', 1.15, 1.4],
  ['2', 0.95, 1.15],
  ['3', 0.8, 0.95],
  ['4', 0.65, 0.8],
  ['5', 0.5, 0.65],
] as const;

function chart(width: number, ranges: readonly number[], aim: number): WaysChartInput {
  const kinds = ['untouched', 'untouched', 'bath', 'bath', 'bath', 'next'] as const;
  return {
    width,
    title: 'ways out',
    aim: { label: `aim: grade 3, ${aim.toFixed(2)}`, printingRange: aim },
    bands: BANDS.map(([label, lower, upper]) => ({ label, lower, upper })),
    rows: ranges.map((printingRange, i) => ({
      id: `way-${i}`,
      label: 'Chromium, then selenium to its practical end',
      kind: kinds[i] ?? 'next',
      printingRange,
      plausible: i < 2 ? null : [printingRange * 0.9, printingRange * 1.1],
      verdict: 'harder than any',
    })),
  };
}

const wordsOf = ({ marks }: Scene, row: number): string =>
  marks
    .flatMap((mark) =>
      mark.kind === 'text' && mark.name === `label-way-${row}` ? [mark.text] : [],
    )
    .join(' ');

describe('chart of the ways out', () => {
  it('lets no two texts overlap and none leave it, from 300 pixels up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1200 }),
        fc.array(fc.double({ min: 0.02, max: 3, noNaN: true }), { minLength: 6, maxLength: 6 }),
        fc.double({ min: 0.1, max: 2, noNaN: true }),
        (width, ranges, aim) => {
          const scene = layoutWaysChart(chart(width, ranges, aim));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
          // Name and figures of every way, on as many lines as they need.
          for (const [index, range] of ranges.entries()) {
            expect(wordsOf(scene, index)).toBe(
              `Chromium, then selenium to its practical end: ${formatNumber(range, 2)}, harder than any`,
            );
          }
        },
      ),
    );
  });

  it('breaks the line of the aim where it would cross the words of a row', () => {
    const across = layoutWaysChart(chart(360, [1, 1, 1, 1, 1, 1], 0.5));
    const beyond = layoutWaysChart(chart(1200, [1, 1, 1, 1, 1, 1], 1));
    const pieces = ({ marks }: typeof across) => {
      const aim = marks.find(({ name }) => name === 'ways-aim');
      return aim?.kind === 'path' ? aim.d.split('M').length - 1 : 0;
    };
    expect(pieces(across)).toBe(7);
    expect(pieces(beyond)).toBe(1);
  });

  it('draws longer bars for longer ranges, each kind with a marker of its own', () => {
    const scene = layoutWaysChart(chart(600, [0.74, 0.74, 0.88, 1, 1.19, 0.875], 0.875));
    const end = (i: number): number => {
      const mark = scene.marks.find(({ name }) => name === `way-way-${i}`);
      return Number(/L([\d.]+),/.exec(mark?.kind === 'path' ? mark.d : '')?.[1]);
    };
    expect(end(0)).toBe(end(1));
    expect(end(2)).toBeGreaterThan(end(0));
    expect(end(4)).toBeGreaterThan(end(3));
    const shape = (i: number): string => {
      const mark = scene.marks.find(({ name }) => name === `way-end-way-${i}`);
      return mark?.kind === 'path' ? mark.d.replace(/[\d.,-]/g, '') : '';
    };
    expect(new Set([shape(0), shape(2), shape(5)]).size).toBe(3);
  });

  it('says the same in its table and in words', () => {
    const scene = layoutWaysChart(chart(600, [0.74, 0.74, 0.88, 1, 1.19, 0.875], 0.875));
    expect(scene.table.rows).toHaveLength(6);
    expect(scene.table.rows[2]).toEqual([
      'Chromium, then selenium to its practical end',
      '0.88',
      '0.79',
      '0.97',
      'harder than any',
    ]);
    expect(scene.description).toContain('aim: grade 3');
  });
});
