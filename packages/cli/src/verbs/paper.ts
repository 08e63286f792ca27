/** `paper`: the measures of paper strips. */
import { paperMeasures, type GradeTable, type PaperMeasures } from '@wedgebook/core';
import { GRADE_OPTIONS, gradeTableOf } from '../input/grade-table.ts';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readReadingsFile } from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import { paperBlock } from '../output/paper-text.ts';
import { lookedUp, paperMapJson, paperMapText } from '../output/paper-map-text.ts';
import { gradeTableJson } from '../output/provenance-text.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { paperOfStrips } from '../printing/paper-of-strips.ts';
import type { CommandIo } from '../io.ts';
import type { Arguments } from '../input/arguments.ts';
import { fittedStrip, type FittedStrip } from '../strips/fitted-strip.ts';
import { fittedFacts } from '../strips/describe-strip.ts';
import { stripsOf } from '../strips/strips-of.ts';
import type { Warning } from '@wedgebook/core';
import type { ReadingsFile } from '@wedgebook/notebook';
import type { Verb } from './verb.ts';

const PAPER_OPTIONS = {
  ...STRIP_OPTIONS,
  ...GRADE_OPTIONS,
  'density-basis': { type: 'string' },
} as const;

/** What the verb takes beside how strips are read. */
const MAP_OPTIONS = { setting: { type: 'string' }, scale: { type: 'string' } } as const;

export interface MeasuredPaper {
  readonly fitted: FittedStrip;
  readonly measures: PaperMeasures | null;
}

export const paper: Verb = {
  options: { ...PAPER_OPTIONS, ...MAP_OPTIONS },
  run: async (given, io) => {
    const table = gradeTableOf(given);
    const file = onlyFile(given);
    const { papers, warnings } = await measuredPapers(file, given, io, table);
    const asked = mapAsked(given, papers);
    const whole = asked ? paperOfStrips(papers, fileName(file)) : null;
    const looked = whole === null ? null : lookedUp(given, whole.map);
    const fileWarnings = shownWarnings(warnings);
    return {
      json: {
        strips: papers.map((measured) => paperJson(measured)),
        ...(whole !== null && paperMapJson(whole)),
        ...looked,
        gradeTable: gradeTableJson(table),
        warnings: fileWarnings,
      },
      text: () =>
        [
          warningLines(fileWarnings, ''),
          ...papers.map(({ fitted, measures }) => paperBlock(fitted, measures, table)),
          whole === null ? '' : paperMapText(whole, looked),
        ]
          .filter((part) => part !== '')
          .join('\n'),
    };
  },
};

/** A map is drawn where strips name settings or lights, or where one is asked for. */
const mapAsked = (given: Arguments, papers: readonly MeasuredPaper[]): boolean =>
  given.has('setting') ||
  given.has('scale') ||
  papers.some(
    ({ fitted: { strip } }) => strip.setting !== undefined || strip.softSeconds !== undefined,
  );

/** The paper strips of a file with their measures. */
export async function measuredPapers(
  file: string,
  given: Arguments,
  io: CommandIo,
  gradeTable: GradeTable,
): Promise<{ readonly papers: readonly MeasuredPaper[]; readonly warnings: readonly Warning[] }> {
  const readings = await readReadingsFile(file, io, stripOptions(given, file));
  return papersOf(readings, file, given, gradeTable);
}

/** The same of readings that have been read. */
export function papersOf(
  readings: ReadingsFile,
  file: string,
  given: Arguments,
  gradeTable: GradeTable,
): { readonly papers: readonly MeasuredPaper[]; readonly warnings: readonly Warning[] } {
  const options = stripOptions(given, file);
  const densityBasis = given.choice('density-basis', ['net', 'gross']) ?? 'net';
  requireSource(readings, options);
  const { strips, warnings } = stripsOf('paper', readings, fileName(file));
  const papers = strips.map((strip): MeasuredPaper => {
    const fitted = fittedStrip(strip, options.exposure, options.model, 'paper');
    const { curve, exposureKind } = fitted;
    const measures = curve && paperMeasures(curve, { densityBasis, exposureKind, gradeTable });
    return { fitted, measures };
  });
  return { papers, warnings };
}

/** The contract's keys first, then what else is known. */
function paperJson({ fitted, measures }: MeasuredPaper): object {
  const { curve } = fitted;
  return {
    ...fittedFacts(fitted),
    densityMin: measures?.densityMin ?? null,
    densityMax: measures?.densityMax ?? null,
    isoRange: measures?.isoRange ?? null,
    isoSpeed: measures?.isoSpeed ?? null,
    paperGrade: measures?.paperGrade ?? null,
    exposureScale: measures?.exposureScale ?? null,
    threshold: measures?.threshold ?? null,
    speedPoint: measures?.speedPoint ?? null,
    shadowPoint: measures?.shadowPoint ?? null,
    averageGradient: measures?.averageGradient ?? null,
    greatestGradient: measures?.greatestGradient ?? null,
    densityBasis: measures?.densityBasis ?? null,
    residualStandardDeviation: curve?.residualStandardDeviation ?? null,
    degreesOfFreedom: curve?.degreesOfFreedom ?? null,
    warnings: shownWarnings(fitted.warnings, measures?.warnings ?? []),
  };
}
