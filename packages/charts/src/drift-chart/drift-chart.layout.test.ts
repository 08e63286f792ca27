import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { layoutDriftChart, type DriftChartInput, type DriftPanel } from './drift-chart.layout.ts';

function panel(id: string, values: readonly (number | null)[], limits = true): DriftPanel {
  return {
    id,
    measure: `${id} (log₁₀ lx·s)`,
    decimals: 2,
    points: values.map((value, i) =>
      value === null
        ? null
        : { value, setsLimits: i < 5, signals: value > 0.65 ? ['beyond the limits'] : [] },
    ),
    limits: limits ? { centre: 0.6, warning: [0.56, 0.64], action: [0.54, 0.66] } : null,
  };
}

function chart(width: number, values: readonly (number | null)[]): DriftChartInput {
  return {
    width,
    title: 'Control strips of a process',
    days: values.map((_, i) => `2026-03-${String(i + 1).padStart(2, '0')}`),
    panels: [panel('speed', values), panel('contrast', values, false), panel('fog', values)],
  };
}

describe('control charts', () => {
  it('lets no two texts overlap and none leave them, from 300 pixels up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1200 }),
        fc.array(fc.option(fc.double({ min: -3, max: 3, noNaN: true })), { maxLength: 40 }),
        (width, values) => {
          const scene = layoutDriftChart(chart(width, values));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
        },
      ),
    );
  });

  it('marks a strip that signals by a shape of its own, and says it in words', () => {
    const scene = layoutDriftChart(chart(600, [0.6, 0.61, 0.59, 0.6, 0.6, 0.7]));
    expect(scene.marks.some(({ name }) => name === 'drift-signal-speed')).toBe(true);
    expect(scene.table.rows.at(-1)).toEqual([
      '2026-03-06',
      ...Array.from({ length: 3 }, () => ['0.70', 'beyond the limits']).flat(),
    ]);
    expect(scene.table.rows[0]?.[2]).toBe('sets the limits');
    expect(scene.description).toContain('limits 0.54 to 0.66, 1 signalling strip');
  });

  it('draws the strips alone where there are no limits, and nothing where nothing was read', () => {
    const scene = layoutDriftChart({
      width: 400,
      title: '',
      days: ['a'],
      panels: [panel('a', [null], false)],
    });
    expect(scene.marks.some(({ name }) => name === 'drift-limit')).toBe(false);
    expect(scene.table.rows).toEqual([['a', '–', '']]);
  });
});
