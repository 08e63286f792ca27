import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { layoutCompletionChart, type CompletionChartInput } from './completion-chart.layout.ts';

const curve = (rate: number) =>
  Array.from({ length: 61 }, (_, i) => ({
    minutes: i / 4,
    completion: 1 - Math.exp((-rate * i) / 4),
  }));

function chart(width: number, minutes: number, rate: number): CompletionChartInput {
  return {
    width,
    height: 280,
    title: 'completion',
    maximumGain: 1.2,
    trials: [],
    plan: { minutes, completion: 1 - Math.exp(-rate * minutes) },
    target: { minutes: 3, completion: 1 - Math.exp(-rate * 3), label: 'aim 3 min' },
    curves: [
      { id: '2', label: '1+2', planned: false, points: curve(rate * 0.66) },
      { id: '3', label: '1+3', planned: false, points: curve(rate * 0.5) },
      { id: 'planned', label: '1+1, 20 °C', planned: true, points: curve(rate) },
    ],
  };
}

describe('completion chart', () => {
  it('lets no two texts overlap and none leave it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1200 }),
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.double({ min: 0.02, max: 2, noNaN: true }),
        (width, minutes, rate) => {
          const scene = layoutCompletionChart(chart(width, minutes, rate));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
        },
      ),
    );
  });

  it('marks the plan and says what it comes to', () => {
    const scene = layoutCompletionChart(chart(600, 6.5, 0.46));
    expect(scene.marks.some((mark) => mark.name === 'completion-plan')).toBe(true);
    expect(scene.description).toContain('95 % after 6.5 min');
    expect(scene.table.columns).toEqual(['minutes in the bath', 'completion (%)', 'gain (×)']);
  });
});
