import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Scene } from '../scene/mark.ts';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { textBox } from '../text/place-labels.ts';
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

function labelOf({ marks }: Scene, name: string) {
  const label = marks.find((mark) => mark.name === `label-${name}`);
  if (label?.kind !== 'text') throw new Error(`no label ${name}`);
  return label;
}

/** Pixels from a marker's centre to the nearest point of its label. */
function distance(scene: Scene, name: string): number {
  const marker = scene.marks.find((mark) => mark.name === `completion-${name}`);
  if (marker?.kind !== 'path') throw new Error(`no marker ${name}`);
  // A path of the layout begins at a diamond's top, or at a square's upper left corner.
  const [x0 = 0, y0 = 0] = (marker.d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
  const [x, y] = name === 'plan' ? [x0 + 5, y0 + 5] : [x0, y0 + 6.5];
  const label = labelOf(scene, name);
  const box = textBox(label.text, label.size, label, label.bold);
  const beyond = (value: number, low: number, high: number) =>
    Math.max(low - value, 0, value - high);
  return Math.hypot(beyond(x, box.x0, box.x1), beyond(y, box.y0, box.y1));
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

  it.each([320, 336, 390, 480, 740, 1200])(
    'names the aim and the plan close to their markers at %i pixels',
    (width) => {
      // The bath of the screen: 6.5 minutes where 3.6 would do, a trial piece after two.
      const at = (minutes: number) => ({ minutes, completion: 1 - Math.exp(-0.55 * minutes) });
      const scene = layoutCompletionChart({
        ...chart(width, 6.5, 0.55),
        plan: at(6.5),
        target: { ...at(3.6), label: 'aim 3.6 min' },
        trials: [at(2)],
        curves: [2, 3, 9, 1].map((water) => ({
          id: String(water),
          label: water === 1 ? '1+1, 20 °C' : `1+${water}`,
          planned: water === 1,
          points: curve(1.1 / (1 + water)).slice(0, 49),
        })),
      });
      expect(distance(scene, 'target')).toBeLessThan(14);
      expect(distance(scene, 'plan')).toBeLessThan(18);
      expect(textOverlaps(scene)).toEqual([]);
      expect(labelOf(scene, 'curve-1').text).toBe('1+1, 20 °C');
    },
  );

  it('marks the plan and says what it comes to', () => {
    const scene = layoutCompletionChart(chart(600, 6.5, 0.46));
    expect(scene.marks.some((mark) => mark.name === 'completion-plan')).toBe(true);
    expect(scene.description).toContain('95 % after 6.5 min');
    expect(scene.table.columns).toEqual(['minutes in the bath', 'completion (%)', 'gain (×)']);
  });
});
