/** The paper that N is fitted to: by its scale, by a strip in a file, or by that of the notebook. */
import {
  generatedPaper,
  paperFromGrade,
  paperFromIsoRange,
  type Estimate,
  type PrintPaper,
  type Warning,
} from '@wedgebook/core';
import { gradeTables } from '@wedgebook/data';
import type { NotebookDocument, ReadingsFile } from '@wedgebook/notebook';
import type { Arguments } from '../input/arguments.ts';
import { gradeTableOf } from '../input/grade-table.ts';
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import { papersOf, type MeasuredPaper } from '../verbs/paper.ts';

export interface PaperForTimes {
  readonly exposureScale: Estimate;
  /** Name of its strip, or of the notebook's paper; null where the scale was given. */
  readonly name: string | null;
  /** Whether a strip of the user's own tells the scale. */
  readonly origin: 'strip' | 'scale';
  readonly paper: PrintPaper;
  /** Density of the unexposed paper; null where no strip tells it. */
  readonly whiteDensity: number | null;
  readonly warnings: readonly Warning[];
}

/** A paper that is known by its scale alone. */
export function paperOfScale(scale: number, name: string | null = null): PaperForTimes {
  return {
    exposureScale: { value: scale, standardError: null },
    name,
    origin: 'scale',
    paper: generatedPaper(scale),
    whiteDensity: null,
    warnings: [],
  };
}

/**
 * The paper of a file.
 *
 * @param readings - with paper strips
 * @param file - where they come from
 * @param wanted - name of the strip, where the file holds several
 * @throws {UsageError} where it is not plain which strip is meant
 */
export function paperOfReadings(
  readings: ReadingsFile,
  file: string,
  wanted: string | undefined,
  given: Arguments,
): PaperForTimes {
  const { papers, warnings } = papersOf(readings, file, given, gradeTableOf(given));
  const usable = papers.filter(({ measures }) => (measures?.exposureScale ?? null) !== null);
  const named =
    wanted === undefined
      ? usable
      : usable.filter(({ fitted }) => fitted.strip.name.toLowerCase() === wanted.toLowerCase());
  const [one] = named;
  if (one === undefined || named.length > 1) {
    const names = usable.map(({ fitted }) => fitted.strip.name);
    throw new UsageError(USAGE.paperStrip(wanted ?? null, names));
  }
  return paperOf(one, warnings);
}

function paperOf({ fitted, measures }: MeasuredPaper, warnings: readonly Warning[]): PaperForTimes {
  const { curve, strip } = fitted;
  const exposureScale = measures?.exposureScale ?? null;
  if (curve === null || measures === null || exposureScale === null) throw new Error('measured');
  return {
    exposureScale,
    name: strip.name,
    origin: 'strip',
    paper: { kind: 'strip', exposureScale: exposureScale.value, curve },
    whiteDensity: measures.densityMin.value,
    warnings: [...warnings, ...fitted.warnings, ...measures.warnings],
  };
}

/**
 * The paper that a notebook plans for.
 *
 * @param document - the notebook
 * @param readings - its strips
 * @param file - where it comes from
 * @returns null where it plans for none, or for one whose strip is gone
 */
export function paperOfNotebook(
  document: NotebookDocument,
  readings: ReadingsFile,
  file: string,
  given: Arguments,
): PaperForTimes | null {
  const { papers, plan, printing, strips } = document;
  const paper = papers.find(({ id }) => id === plan.paperId);
  if (paper === undefined) return null;
  const { source, name } = paper;
  if (source.kind === 'iso-range') {
    return paperOfScale(paperFromIsoRange(source.isoRange).exposureScale, name);
  }
  if (source.kind === 'grade-table') {
    const table = gradeTables.find(({ id }) => id === source.tableId) ?? gradeTableOf(given);
    return paperOfScale(paperFromGrade(source.band, table).exposureScale, name);
  }
  const id =
    source.kind === 'strip'
      ? source.stripId
      : (source.strips.find(({ setting }) => setting === printing.setting) ?? source.strips[0])
          ?.stripId;
  const strip = strips.find((one) => one.id === id);
  return strip === undefined ? null : paperOfReadings(readings, file, strip.name, given);
}
