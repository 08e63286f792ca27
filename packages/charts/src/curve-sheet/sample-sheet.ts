/** An invented strip and negative to draw in tests. */
import type { CurveSheetInput, RangeOnPaper, SheetPoint } from './curve-sheet.types.ts';

const softplus = (z: number) => Math.log1p(Math.exp(z));

const BANDS = [
  { label: '0', lower: 1.4, upper: 1.7 },
  { label: '1', lower: 1.15, upper: 1.4 },
  { label: '2', lower: 0.95, upper: 1.15 },
  { label: '3', lower: 0.8, upper: 0.95 },
  { label: '4', lower: 0.65, upper: 0.8 },
  { label: '5', lower: 0.5, upper: 0.65 },
];

export interface SampleOptions {
  readonly width: number;
  readonly shadow?: number;
  readonly range?: number;
  readonly gain?: number;
  readonly exposureScale?: number;
  readonly others?: number;
}

/** A sheet with one strip, its toned curve, neighbours and a negative. */
export function sampleSheet({
  width,
  shadow = 0.3,
  range = 0.75,
  gain = 1.18,
  exposureScale = 1.05,
  others = 3,
}: SampleOptions): CurveSheetInput {
  const curve = (slope: number) => (x: number) => 0.15 + slope * 0.25 * softplus((x + 2.2) / 0.25);
  const line = (f: (x: number) => number): SheetPoint[] =>
    Array.from({ length: 121 }, (_, i) => {
      const logExposure = -3 + i * 0.025;
      return { logExposure, density: f(logExposure) };
    });
  const base = curve(0.6);
  const after = (x: number) => 0.15 + gain * (base(x) - 0.15);
  const before: RangeOnPaper = {
    label: 'before',
    role: 'before',
    shadowDensity: shadow,
    highlightDensity: shadow + range,
    printingRange: range,
    verdict: 'grade 4',
  };
  const foot = 0.15 + gain * (shadow - 0.15);
  return {
    width,
    height: 420,
    title: 'sample',
    exposureKind: 'absolute',
    speedPoint: { logExposure: -2.13, density: 0.25 },
    baseFog: 0.15,
    series: [
      ...Array.from({ length: others }, (_, i) => ({
        id: `other-${i}`,
        label: `${5 + 3 * i} min`,
        role: 'other' as const,
        line: line(curve(0.4 + 0.1 * i)),
        markers: [],
      })),
      {
        id: 'before',
        label: '8 min',
        role: 'before',
        line: line(base),
        markers: line(base).filter((_, i) => i % 6 === 0),
      },
      { id: 'after', label: 'after the bath', role: 'after', line: line(after), markers: [] },
    ],
    fit: {
      paper: { label: 'grade 2', exposureScale },
      bands: BANDS,
      ranges: [
        before,
        {
          ...before,
          label: 'after 6.5 min',
          role: 'after',
          shadowDensity: foot,
          highlightDensity: foot + gain * range,
          printingRange: gain * range,
          verdict: 'grade 3',
        },
      ],
    },
  };
}
