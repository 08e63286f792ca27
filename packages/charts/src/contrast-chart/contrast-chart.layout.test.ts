import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { layoutContrastChart, type ContrastChartInput } from './contrast-chart.layout.ts';

const rise = (limit: number, rate: number) => (minutes: number) =>
  limit * (1 - Math.exp(-rate * (minutes - 0.6)));

function chart(width: number, limit: number, rate: number): ContrastChartInput {
  const contrast = rise(limit, rate);
  const points = (of: (minutes: number) => number, standardError: number | null) =>
    Array.from({ length: 61 }, (_, i) => {
      const minutes = 0.3 * (i + 1);
      return { minutes, contrast: of(minutes), standardError };
    });
  return {
    width,
    height: 320,
    title: 'Contrast against development time',
    measure: 'contrast index',
    celsius: 20,
    strips: [4, 6, 8, 11, 15].map((minutes) => ({
      name: `${minutes} min`,
      minutes,
      contrast: contrast(minutes),
      standardError: 0.01,
    })),
    law: { label: 'first order, with delay', points: points(contrast, 0.02) },
    rival: {
      label: 'straight over the logarithm of time',
      points: points((t) => 0.3 * Math.log(t), null),
    },
    targets: [-3, -2, -1, 0, 1, 2, 3].map((n) => {
      const wanted = (0.58 * 7) / (7 - n);
      return {
        label: n === 0 ? 'N' : `N${n > 0 ? '+' : ''}${n}`,
        contrast: wanted,
        minutes: wanted < limit ? 0.6 - Math.log1p(-wanted / limit) / rate : null,
      };
    }),
    limit: { contrast: limit, usable: 0.8 * limit },
  };
}

const named = (scene: ReturnType<typeof layoutContrastChart>, name: string) =>
  scene.marks.filter((mark) => mark.name === name);

describe('chart of contrast against time', () => {
  it('lets no two texts overlap and none leave it, from 300 pixels up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1200 }),
        fc.double({ min: 0.5, max: 3, noNaN: true }),
        fc.double({ min: 0.03, max: 0.5, noNaN: true }),
        (width, limit, rate) => {
          const scene = layoutContrastChart(chart(width, limit, rate));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
        },
      ),
    );
  });

  it('draws every strip with its error, the law with its band, the rival, targets and the limit', () => {
    const scene = layoutContrastChart(chart(600, 1.1, 0.095));
    expect(named(scene, 'contrast-error')).toHaveLength(5);
    for (const name of ['contrast-law', 'contrast-band', 'contrast-rival', 'contrast-limit']) {
      expect(named(scene, name), name).toHaveLength(1);
    }
    expect(scene.marks.filter(({ name }) => name?.startsWith('contrast-target-'))).toHaveLength(7);
  });

  it('says which target is out of reach, and at what clock time N is reached', () => {
    const { description } = layoutContrastChart(chart(600, 0.9, 0.1));
    expect(description).toContain('N+3 1.01 out of reach');
    expect(description).toMatch(/; N 0\.58 at \d+:\d\d min/);
  });

  it('draws strips alone where no law could be fitted', () => {
    const scene = layoutContrastChart({
      ...chart(600, 1.1, 0.095),
      law: null,
      rival: null,
      targets: [],
      limit: null,
    });
    expect(named(scene, 'contrast-strips')).toHaveLength(1);
    expect(named(scene, 'contrast-law')).toEqual([]);
    expect(textsOutside(scene)).toEqual([]);
  });

  it('lists strips and law, with their errors, in its table', () => {
    const { table } = layoutContrastChart(chart(600, 1.1, 0.095));
    expect(table.columns).toEqual([
      'strip or law',
      'development at 20 °C (min)',
      'contrast index',
      'standard error',
    ]);
    expect(table.rows[0]).toEqual(['4 min', '4.0', '0.304', '0.010']);
    expect(table.rows.length).toBeGreaterThan(20);
  });
});
