/** The negative and the paper as the columns of the sheet and the ruler draw them. */
import { densityAfter } from '@wedgebook/core';
import type { RangeOnPaper, SheetPaperFit } from '@wedgebook/charts';
import type { Strip } from '@wedgebook/notebook';
import { text } from '../text.ts';
import type { BathView } from './derive-bath.ts';

/** The negative's printing range before and after, for the columns and the ruler. */
export function paperFit(
  bath: BathView,
  strip: Strip | null,
  planMinutes: number,
): SheetPaperFit | null {
  const { ends, prediction, match, paper, gradeTable, negative } = bath;
  const bands = gradeTable.bands.map(({ grade, lower, upper }) => ({
    label: String(grade),
    lower,
    upper,
  }));
  if (ends === null || match === null || !(ends.densityRange > 0)) return null;
  const lies = negative?.stripId ?? null;
  const onCurve = !ends.rangeOnly && (lies === null || lies === strip?.id);
  const ranges: RangeOnPaper[] = [
    {
      label: text.sheetFigure.before,
      role: 'before',
      shadowDensity: ends.shadow.density,
      highlightDensity: ends.highlight.density,
      printingRange: match.printingRange.value,
      verdict: text.gradeShort(match.paperGrade),
      onCurve,
    },
  ];
  if (prediction !== null) {
    const foot = ends.baseFog ?? 0;
    const shadow = foot + densityAfter(ends.shadow.density - foot, prediction.effect);
    ranges.push({
      label: text.sheetFigure.afterMinutes(planMinutes),
      role: 'after',
      shadowDensity: shadow,
      highlightDensity: shadow + prediction.after.densityRange.value,
      printingRange: prediction.after.printingRange.value,
      verdict: text.gradeShort(prediction.after.paperGrade),
      onCurve,
    });
  }
  return {
    paper: paper === null ? null : { label: paper.label, exposureScale: paper.exposureScale.value },
    bands,
    ranges,
  };
}
