/** `match`: what paper a negative asks for. */
import { matchNegative, warning, type NegativeMatch, type PaperFit } from '@wedgebook/core';
import { GRADE_OPTIONS, gradeTableOf, rivalOf } from '../input/grade-table.ts';
import { givenLight, givenNegative, NEGATIVE_OPTIONS, type GivenLight } from '../input/negative.ts';
import { STRIP_OPTIONS } from '../input/strip-options.ts';
import { unusedOptions } from '../input/unused-options.ts';
import { factList } from '../output/aligned-table.ts';
import { callierText, estimateText, fixed, significant } from '../output/figures.ts';
import { gradesWithinText, gradeText } from '../output/paper-text.ts';
import { gradeTableJson, gradeTableText } from '../output/provenance-text.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { MEASURES as M, USAGE } from '../text.ts';
import { UNUSED } from '../unused-text.ts';
import { UsageError } from '../usage-error.ts';
import { measuredPapers } from './paper.ts';
import type { Verb } from './verb.ts';

interface NamedFit {
  readonly strip: string;
  readonly fit: PaperFit;
}

export const match: Verb = {
  options: {
    ...STRIP_OPTIONS,
    ...GRADE_OPTIONS,
    ...NEGATIVE_OPTIONS,
    paper: { type: 'string' },
    'density-basis': { type: 'string' },
  },
  run: async (given, io) => {
    const [alone] = given.positionals;
    if (alone !== undefined) throw new UsageError(USAGE.noFile(alone, ['--paper FILE']));
    const negative = givenNegative(given);
    if (negative === undefined) throw new UsageError(USAGE.rangeNeeded);
    const light = givenLight(given);
    const stain = given.number('stain', 0, 5) ?? 0;
    const gradeTable = gradeTableOf(given);
    const rivalTable = rivalOf(gradeTable);
    const options = {
      callierFactor: light.callierFactor,
      callierFactorError: light.callierFactorError,
      stain,
      gradeTable,
      ...(rivalTable !== null && { rivalTable }),
    };
    const matched = matchNegative(negative, options);

    const paperFile = given.text('paper');
    const read =
      paperFile === undefined ? null : await measuredPapers(paperFile, given, io, gradeTable);
    const fits = (read?.papers ?? []).flatMap(({ fitted, measures }): NamedFit[] => {
      const exposureScale = measures?.exposureScale;
      if (exposureScale === null || exposureScale === undefined) return [];
      const { paper } = matchNegative(negative, { ...options, paper: exposureScale });
      return paper === null ? [] : [{ strip: fitted.strip.name, fit: paper }];
    });
    const warnings = [
      ...shownWarnings(
        matched.warnings,
        light.builtIn !== null && !light.builtIn.verified
          ? [warning('value-unverified', { what: `Callier factor of ${light.builtIn.name}` })]
          : [],
        read?.warnings ?? [],
        ...(read?.papers ?? []).map(({ fitted, measures }) => [
          ...fitted.warnings,
          ...(measures?.warnings ?? []).filter(({ code }) => code !== 'exposure-relative'),
        ]),
      ),
      ...unusedOptions(given, [
        {
          names: ['density-basis', ...Object.keys(STRIP_OPTIONS)],
          used: paperFile !== undefined,
          remedy: UNUSED.paper,
        },
      ]),
    ];
    return {
      json: {
        densityRange: matched.densityRange,
        printingRange: matched.printingRange,
        exposureScale: matched.exposureScale,
        isoRange: matched.isoRange && {
          ...matched.isoRange.exact,
          rounded: matched.isoRange.rounded,
        },
        paperGrade: matched.paperGrade,
        gradesWithin: matched.gradesWithin,
        callierFactor: light.callierFactor,
        callierFactorError: light.callierFactorError,
        papers: fits.map(({ strip, fit }) => ({ strip, ...fit })),
        gradeTable: gradeTableJson(gradeTable),
        warnings,
      },
      text: () =>
        `${matchFacts(matched, light, gradeTableText(gradeTable), fits)}${warningLines(warnings)}`,
    };
  },
};

function matchFacts(
  matched: NegativeMatch,
  light: GivenLight,
  table: string,
  fits: readonly NamedFit[],
): string {
  const { densityRange, printingRange, exposureScale, isoRange, paperGrade } = matched;
  const { gradesWithin } = matched;
  return factList([
    [M.densityRange[0], estimateText(densityRange), M.densityRange[1]],
    [M.printingRange[0], estimateText(printingRange), M.printingRange[1](callierText(light))],
    [M.scaleWanted[0], estimateText(exposureScale), M.scaleWanted[1]],
    [M.rangeWanted[0], isoRange === null ? '-' : isoRangeText(isoRange), M.rangeWanted[1]],
    [M.paperGrade, gradeText(paperGrade), table],
    ...(gradesWithin === null ? [] : [['', gradesWithinText(gradesWithin), M.gradesWithin]]),
    ...fits.flatMap(({ strip, fit }) => [
      [M.paperOf(strip), estimateText(fit.exposureScale), M.exposureScale[1]],
      ['', estimateText(fit.difference), M.difference(fixed(fit.differenceStops, 2))],
      ['', M.verdict[fit.verdict], otherVerdicts(fit)],
    ]),
  ]);
}

function isoRangeText({ exact, rounded }: NonNullable<NegativeMatch['isoRange']>): string {
  const figure = significant(exact.value, 4);
  const error = exact.standardError === null ? '' : ` ± ${fixed(exact.standardError, 1)}`;
  return `R ${rounded} (exact ${figure}${error})`;
}

/** The verdicts beside the one that is told which its error leaves possible. */
function otherVerdicts({ verdict, verdictsWithin }: PaperFit): string {
  const others = verdictsWithin.filter((each) => each !== verdict);
  return others.length === 0 ? '' : M.mayAlso(others.map((each) => M.verdictShort[each]));
}
