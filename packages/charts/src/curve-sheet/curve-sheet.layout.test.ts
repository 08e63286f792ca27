import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import type { PathMark, Scene, TextMark } from '../scene/mark.ts';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { formatNumber } from '../text/format.ts';
import { textBox } from '../text/place-labels.ts';
import { layoutCurveSheet } from './curve-sheet.layout.ts';
import { sampleSheet } from './sample-sheet.ts';

const path = (scene: Scene, name: string): PathMark => {
  const mark = scene.marks.find((each) => each.kind === 'path' && each.name === name);
  if (mark?.kind !== 'path') throw new Error(`no mark ${name}`);
  return mark;
};
const labelOf = ({ marks }: Scene, name: string): TextMark | undefined =>
  marks.find((mark): mark is TextMark => mark.kind === 'text' && mark.name === `label-${name}`);
/** Top and bottom of a box path `Mx,yhwvh…`. */
const extentOf = ({ d }: PathMark) => {
  const [, y = 0, , height = 0] = (d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
  return { top: y, bottom: y + height };
};
/** The corners of a line's path. */
function cornersOf(d: string): [number, number][] {
  const n = (d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
  return Array.from({ length: n.length / 2 }, (_, i) => [n[2 * i] ?? 0, n[2 * i + 1] ?? 0]);
}
/** Pixels of one density unit, from the left axis. */
function pixelsPerDensity(scene: Scene): number {
  const ticks = scene.marks.flatMap((mark) =>
    mark.kind === 'text' && mark.anchor === 'end' && /^\d\.\d+$/.test(mark.text)
      ? [{ value: Number(mark.text), y: mark.y }]
      : [],
  );
  const [a, b] = [ticks[0]!, ticks.at(-1)!];
  return (a.y - b.y) / (b.value - a.value);
}

describe('curve sheet', () => {
  it('needs no document', () => {
    expect(typeof document).toBe('undefined');
  });

  it('lets no two texts overlap and none leave the sheet, at any size and for any negative', () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 300, max: 1500 }),
          shadow: fc.double({ min: 0.16, max: 0.8, noNaN: true }),
          range: fc.double({ min: 0.2, max: 2, noNaN: true }),
          gain: fc.double({ min: 1, max: 1.45, noNaN: true }),
          exposureScale: fc.double({ min: 0.5, max: 1.8, noNaN: true }),
          others: fc.integer({ min: 0, max: 9 }),
        }),
        (options) => {
          const scene = layoutCurveSheet(sampleSheet(options));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
        },
      ),
      { numRuns: 300 },
    );
  }, 30_000);

  it('writes no name of another strip over the curves that matter, and still names most', () => {
    const named = { full: 0, asked: 0 };
    for (const width of [300, 330, 540, 700, 1050]) {
      for (const others of [1, 3, 5]) {
        const sheet = sampleSheet({ width, others });
        // A strip that lies on the chosen one, as a repeat does.
        const { line } = sheet.series.at(-2)!;
        const twin = { id: 'twin', label: 'test', role: 'other' as const, line, markers: [] };
        const scene = layoutCurveSheet({ ...sheet, series: [twin, ...sheet.series] });
        const curves = ['curve-before', 'curve-after'].map((name) =>
          cornersOf(path(scene, name).d),
        );
        const labels = scene.marks.flatMap((mark) =>
          mark.kind === 'text' && /^label-name-(other|twin)/.test(mark.name ?? '') ? [mark] : [],
        );
        named.full += labels.length;
        named.asked += others;
        for (const mark of labels) {
          const box = textBox(mark.text, mark.size, mark);
          const hit = curves.some((points) =>
            points.some(([x, y]) => x > box.x0 && x < box.x1 && y > box.y0 && y < box.y1),
          );
          expect(hit, `${mark.text} at ${width} pixels among ${others}`).toBe(false);
        }
      }
    }
    expect(named.full / named.asked).toBeGreaterThan(0.5);
  });

  it('names the speed point at any size, and wherever it lies on the curve', () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 300, max: 1500 }),
          height: fc.integer({ min: 300, max: 760 }),
          logExposure: fc.double({ min: -2.8, max: -0.5, noNaN: true }),
          others: fc.integer({ min: 0, max: 9 }),
        }),
        ({ width, height, logExposure, others }) => {
          const sheet = sampleSheet({ width, others });
          const line = sheet.series.find(({ role }) => role === 'before')!.line;
          const { density } = line.find((point) => point.logExposure >= logExposure)!;
          const scene = layoutCurveSheet({
            ...sheet,
            height,
            speedPoint: { logExposure, density },
          });
          expect(labelOf(scene, 'speed')?.text).toBe(`speed point ${formatNumber(logExposure, 2)}`);
          expect(textOverlaps(scene)).toEqual([]);
        },
      ),
      { numRuns: 300 },
    );
  }, 30_000);

  it('names the denser of two shadows above and the thinner below', () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 300, max: 1500 }),
          height: fc.integer({ min: 300, max: 760 }),
          shadow: fc.double({ min: 0.34, max: 0.6, noNaN: true }),
          gain: fc.double({ min: 1.1, max: 1.45, noNaN: true }),
          others: fc.integer({ min: 0, max: 9 }),
        }),
        ({ height, ...options }) => {
          const scene = layoutCurveSheet({ ...sampleSheet(options), height });
          const below = labelOf(scene, 'shadow-before')?.y ?? Infinity;
          const above = labelOf(scene, 'shadow-after')?.y ?? -Infinity;
          expect(above).toBeLessThan(below);
        },
      ),
      { numRuns: 300 },
    );
  }, 30_000);

  it('draws the columns on the density axis of the curves: heights are the density ranges', () => {
    const scene = layoutCurveSheet(sampleSheet({ width: 980, range: 0.75, gain: 1.2 }));
    const unit = pixelsPerDensity(scene);
    const before = extentOf(path(scene, 'fill-before'));
    const after = extentOf(path(scene, 'fill-after'));
    expectWithin((before.bottom - before.top) / unit, 0.75, 0.005, 'before');
    expectWithin((after.bottom - after.top) / unit, 0.9, 0.005, 'after');
  });

  it('stands the paper’s rim where the negative would have to reach', () => {
    const scene = layoutCurveSheet(sampleSheet({ width: 980, range: 0.75, exposureScale: 1.05 }));
    const unit = pixelsPerDensity(scene);
    const [, rim = 0] = (path(scene, 'paper-rim-before').d.match(/-?\d+(\.\d+)?/g) ?? []).map(
      Number,
    );
    const { bottom } = extentOf(path(scene, 'fill-before'));
    expectWithin((bottom - rim) / unit, 1.05, 0.005);
  });

  it('says in words and stops whether the negative falls short, fills or overshoots', () => {
    const words = (range: number) => {
      const scene = layoutCurveSheet(sampleSheet({ width: 980, range, exposureScale: 1.05 }));
      return scene.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    };
    expect(words(0.75)).toEqual(expect.arrayContaining(['0.30 short', '1.0 stop']));
    expect(words(1.05)).toContain('fills it');
    expect(words(1.35)).toEqual(expect.arrayContaining(['0.30 over', '1.0 stop']));
    expect(layoutCurveSheet(sampleSheet({ width: 980 })).description).toContain(
      "before: the negative's printing range of 0.75 falls short of the exposure scale of 1.05 log₁₀ of grade 2 by 0.30 (1.0 stop).",
    );
  });

  it.each([540, 760, 1200])('names the paper and its scale with the unit at %i pixels', (width) => {
    const sheet = sampleSheet({ width, exposureScale: 0.9 });
    const paper = { label: 'The same, one grade harder', exposureScale: 0.9 };
    const scene = layoutCurveSheet({ ...sheet, fit: { ...sheet.fit!, paper } });
    const caption = scene.marks.flatMap((mark) =>
      mark.kind === 'text' && mark.name === 'label-frame' ? [mark.text] : [],
    );
    expect(caption.join(', ')).toBe('frame: The same, one grade harder, scale 0.90 log₁₀');
    expect(textsOutside(scene)).toEqual([]);
    expect(textOverlaps(scene)).toEqual([]);
  });

  it('leaves the columns to the ruler where there is no room for them', () => {
    const narrow = layoutCurveSheet(sampleSheet({ width: 330 }));
    expect(narrow.marks.some((mark) => mark.name === 'fill-before')).toBe(false);
  });

  it('draws no spots on a curve that the negative does not lie on', () => {
    const sheet = sampleSheet({ width: 980 });
    const ranges = sheet.fit!.ranges.map((range) => ({ ...range, onCurve: false }));
    const scene = layoutCurveSheet({ ...sheet, fit: { ...sheet.fit!, ranges } });
    expect(scene.marks.some((mark) => mark.name === 'spots')).toBe(false);
  });

  it('says that there is nothing to draw rather than drawing an empty frame', () => {
    const scene = layoutCurveSheet({ ...sampleSheet({ width: 980 }), series: [] });
    expect(scene.marks).toHaveLength(1);
    expect(scene.description).toContain('at least four readings');
  });

  it('has every reading in its table and leaves its input alone', () => {
    const sheet = sampleSheet({ width: 980 });
    const copy = structuredClone(sheet);
    const { table } = layoutCurveSheet(sheet);
    expect(sheet).toEqual(copy);
    expect(table.rows.filter(([curve]) => curve === '8 min')).toHaveLength(21);
    expect(table.columns[1]).toBe('log exposure (log₁₀ lx·s)');
  });
});
