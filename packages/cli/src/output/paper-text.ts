/** Paper measures and grades, for reading. */
import type { GradesWithin, GradeTable, PaperGrade, PaperMeasures } from '@wedgebook/core';
import { stripTitle } from '../strips/describe-strip.ts';
import type { FittedStrip } from '../strips/fitted-strip.ts';
import { MEASURES as M } from '../text.ts';
import { factList } from './aligned-table.ts';
import { estimateText, fixed, speedText } from './figures.ts';
import { curveRows } from './film-text.ts';
import { gradeTableText } from './provenance-text.ts';
import { shownWarnings, warningLines } from './warnings.ts';

/** Such as `2 (1.83 on a continuous scale)`. */
export function gradeText(grade: PaperGrade | null): string {
  if (grade === null) return '-';
  if (grade.band === null) return grade.outside === null ? '-' : M.outside[grade.outside];
  return `${grade.band} (${M.continuous(fixed(grade.continuous, 2))})`;
}

/** Such as `1.6 to 2.1`, or `harder than any grade of the table to 4.8`; a dash for nothing. */
export function gradesWithinText(within: GradesWithin): string {
  if (within === null) return '-';
  const [softest, hardest] = within.map(({ continuous, outside }) =>
    outside === null ? fixed(continuous, 2) : M.outside[outside],
  );
  return softest === hardest ? (softest ?? '-') : M.fromTo(softest ?? '-', hardest ?? '-');
}

/** All measures of one paper strip, with their definitions and warnings. */
export function paperBlock(
  fitted: FittedStrip,
  measures: PaperMeasures | null,
  table: GradeTable,
): string {
  const { strip, exposureKind } = fitted;
  const unit = M.logExposure[exposureKind];
  const rows = curveRows(fitted);
  if (measures !== null) {
    const { isoRange, isoSpeed, shadowPoint, densityBasis } = measures;
    rows.push(
      [M.densityMin[0], estimateText(measures.densityMin), M.densityMin[1]],
      [
        M.paperMax[0],
        estimateText(measures.densityMax),
        M.paperMaxBasis[measures.densityMax.basis],
      ],
      point(M.threshold, estimateText(measures.threshold?.logExposure), unit),
      point(M.paperSpeedPoint, estimateText(measures.speedPoint?.logExposure), unit),
      point(M.shadowPoint[densityBasis], estimateText(shadowPoint?.logExposure), unit),
      [M.exposureScale[0], estimateText(measures.exposureScale), M.exposureScale[1]],
      [
        M.isoRange[0],
        isoRange === null
          ? '-'
          : `R ${isoRange.rounded} (exact ${estimateText(isoRange.exact, 1)})`,
        M.isoRange[1],
      ],
      [
        M.isoSpeed[0],
        isoSpeed === null
          ? '-'
          : `P ${isoSpeed.rounded ?? '-'} (exact ${speedText(isoSpeed.exact)})`,
        isoSpeed === null && exposureKind === 'relative' ? M.noSpeed : M.isoSpeed[1],
      ],
      [M.paperGradient[0], estimateText(measures.averageGradient), M.paperGradient[1]],
      [M.greatestGradient[0], estimateText(measures.greatestGradient), M.greatestGradient[1]],
      [M.paperGrade, gradeText(measures.paperGrade), gradeTableText(table)],
    );
  }
  const warnings = shownWarnings(fitted.warnings, measures?.warnings ?? []);
  return `${stripTitle(strip)}\n${factList(rows)}${warningLines(warnings)}`;
}

const point = (
  [name, definition]: readonly [string, string],
  figure: string,
  unit: string,
): readonly string[] => [name, figure, `${unit}, ${definition}`];
