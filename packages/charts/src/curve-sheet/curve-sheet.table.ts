/**
 * The curve sheet in words and as a table: every figure the drawing shows.
 */
import type { SceneTable } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';
import { fitSentence, words } from '../text/words.ts';
import type { CurveSheetInput } from './curve-sheet.types.ts';

/** The readings and the fitted densities of the curves that matter, by log exposure. */
export function sheetTable(input: CurveSheetInput): SceneTable {
  const rows = input.series
    .filter(({ role }) => role !== 'other')
    .flatMap(({ label, line, markers }) => {
      const exposures = markers.length > 0 ? markers : line.filter((_, i) => i % 10 === 0);
      return exposures.map((point): string[] => [
        label,
        formatNumber(point.logExposure, 2),
        markers.length > 0 ? formatNumber(point.density, 3) : '–',
        formatNumber(densityOnLine(line, point.logExposure), 3),
      ]);
    });
  return {
    caption: 'Readings and fitted densities',
    columns: [
      'curve',
      words.logExposure[input.exposureKind],
      'density read',
      'density of the curve',
    ],
    rows,
  };
}

/** What the sheet shows, for those who cannot see it. */
export function describeSheet({ series, speedPoint, baseFog, fit }: CurveSheetInput): string {
  const sentences = [
    `Density over log exposure for ${series.map(({ label }) => label).join(', ')}.`,
  ];
  if (baseFog !== null) sentences.push(`Base + fog is ${formatNumber(baseFog, 2)}.`);
  if (speedPoint !== null) {
    sentences.push(`The speed point lies at ${formatNumber(speedPoint.logExposure, 2)}.`);
  }
  for (const range of fit?.ranges ?? []) {
    if (fit?.paper) sentences.push(fitSentence(range.label, range.printingRange, fit.paper));
  }
  return sentences.join(' ');
}

function densityOnLine(
  line: CurveSheetInput['series'][number]['line'],
  logExposure: number,
): number {
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1];
    const b = line[i];
    if (a === undefined || b === undefined || b.logExposure < logExposure) continue;
    const width = b.logExposure - a.logExposure;
    const part = width > 0 ? (logExposure - a.logExposure) / width : 0;
    return a.density + Math.max(0, part) * (b.density - a.density);
  }
  return line.at(-1)?.density ?? Number.NaN;
}
