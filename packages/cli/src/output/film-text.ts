/** The measures of film strips, for reading. */
import type { FamiliesCompared, FilmMeasures, FilmSpeed } from '@wedgebook/core';
import { stripTitle } from '../strips/describe-strip.ts';
import type { FittedStrip } from '../strips/fitted-strip.ts';
import { COMPARISON, FILM_COLUMNS, MEASURES as M } from '../text.ts';
import { alignedTable, factList } from './aligned-table.ts';
import { estimateText, fixed, speedText } from './figures.ts';
import { shownWarnings, warningLines } from './warnings.ts';

/** A film strip with its measures, and the rival families where they were asked for. */
export interface MeasuredFilm {
  readonly fitted: FittedStrip;
  readonly measures: FilmMeasures | null;
  readonly compared: FamiliesCompared | null;
}

/** The line of one strip in the summary. */
export function filmSummaryRow({ fitted, measures }: MeasuredFilm): readonly string[] {
  return [
    fitted.strip.name,
    fixed(fitted.strip.minutes, 1),
    String(fitted.points),
    estimateText(measures?.baseFog),
    estimateText(measures?.gamma),
    estimateText(measures?.contrastIndex),
    estimateText(measures?.averageGradients.find(({ to }) => to === '+1.30')?.value),
    speedFigure(measures?.speed ?? null),
  ];
}

/** One line for each strip. */
export function filmSummary(rows: readonly (readonly string[])[]): string {
  return alignedTable(
    FILM_COLUMNS.map((title, index) => ({ title, align: index === 0 ? 'left' : 'right' })),
    rows,
  );
}

/** All measures of one strip, with their definitions and warnings. */
export function filmBlock({ fitted, measures, compared }: MeasuredFilm): string {
  const { strip, exposureKind } = fitted;
  const unit = M.logExposure[exposureKind];
  const rows = curveRows(fitted);
  if (measures !== null) {
    const { isoTriangle, speed, fractionalGradientSpeed: delta, usefulRange } = measures;
    rows.push(
      fact(M.baseFog, estimateText(measures.baseFog)),
      fact(M.densityMax, estimateText(measures.densityMax)),
      fact(M.gamma, estimateText(measures.gamma)),
      fact(M.contrastIndex, estimateText(measures.contrastIndex)),
      ...measures.averageGradients.map(({ from, to, value }) => [
        M.averageGradient[0],
        estimateText(value),
        M.averageGradient[1](from, to),
      ]),
      fact(M.inertia, estimateText(measures.inertia?.logExposure), unit),
      fact(M.speedPoint, estimateText(measures.speedPoint?.logExposure), unit),
      [
        M.isoTriangle[0],
        estimateText(isoTriangle?.densityRise),
        isoTriangle === null ? M.isoTriangle[1] : `${M.isoTriangle[1]}; ${M.met(isoTriangle.met)}`,
      ],
      speed === null
        ? [M.speed['exposure-index'], '-', exposureKind === 'relative' ? M.noSpeed : '']
        : [
            M.speed[speed.kind],
            `${speedFigure(speed)} (exact ${speedText(speed.exact)})`,
            M.speedDefinition[speed.kind],
          ],
    );
    if (delta !== null && exposureKind === 'absolute') {
      rows.push(fact(M.fractionalGradient, speedText(delta.exact)));
    }
    if (measures.hurterDriffieldSpeed !== null && exposureKind === 'absolute') {
      rows.push(fact(M.hurterDriffieldSpeed, speedText(measures.hurterDriffieldSpeed)));
    }
    if (usefulRange !== null) {
      const { value, fromLogExposure, toLogExposure, atLeast } = usefulRange;
      rows.push([
        M.usefulRange,
        fixed(value, 2),
        M.usefulFromTo(fixed(fromLogExposure, 2), fixed(toLogExposure, 2), atLeast),
      ]);
    }
  }
  const warnings = shownWarnings(fitted.warnings, measures?.warnings ?? []);
  return `${stripTitle(strip)}\n${factList(rows)}${comparisonText(compared)}${warningLines(warnings)}`;
}

/** The families side by side, and what speaks for the one in use. */
function comparisonText(compared: FamiliesCompared | null): string {
  if (compared === null) return '';
  const { families, verdict, chosen, best } = compared;
  const table = alignedTable(
    COMPARISON.columns.map((title, index) => ({ title, align: index === 0 ? 'left' : 'right' })),
    families.map((one) => [
      one.family,
      fixed(one.parameterCount, 1),
      fixed(one.residualStandardDeviation, 4),
      fixed(one.difference, 2),
      fixed(one.weight, 3),
    ]),
    '    ',
  );
  return `  ${COMPARISON.verdict[verdict](chosen, best ?? '')}\n${table}`;
}

/** The family of the curve, its scatter and what it stands on; and where no slips are looked for. */
export function curveRows(fitted: FittedStrip): (readonly string[])[] {
  const { points, readings, curve, slips } = fitted;
  const unexposed = readings.unexposedDensities?.length ?? 0;
  const counts = M.points(points, readings.densities.length, unexposed);
  const scatter = curve?.residualStandardDeviation ?? null;
  const error =
    scatter === null ? M.through : M.scatter(fixed(scatter, 4), curve?.degreesOfFreedom ?? 0);
  const row = [M.curve, curve?.family ?? '-', curve === null ? counts : `${counts}; ${error}`];
  return slips === null || slips === 'done' ? [row] : [row, [...M.noSlips, M.whyNoSlips[slips]]];
}

function fact(
  [name, definition]: readonly [string, string],
  figure: string,
  unit?: string,
): readonly string[] {
  return [name, figure, unit === undefined ? definition : `${unit}, ${definition}`];
}

/** Such as `125/22°`. */
function speedFigure(speed: FilmSpeed | null): string {
  return speed === null ? '-' : `${speed.arithmetic}/${speed.degrees}°`;
}
