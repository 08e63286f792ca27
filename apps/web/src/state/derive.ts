/**
 * Everything that follows from the notebook, computed by core when asked and remembered as long as
 * its inputs keep their identity: one keystroke refits one strip.
 */
import {
  densityAt,
  densityBand,
  filmMeasures,
  firstCurve,
  paperMeasures,
  warning,
  type CharacteristicCurve,
  type CurveFamily,
  type CurveFit,
  type FilmMeasures,
  type GradeTable,
  type PaperMeasures,
  type Warning,
} from '@wedgebook/core';
import { ansiGradeTable, gradeTables } from '@wedgebook/data';
import {
  placesOf,
  stripReadings,
  tabletLookup,
  type Strip,
  type StripReadings,
  type StripRow,
  type Tablet,
} from '@wedgebook/notebook';
import type * as LastWord from '@wedgebook/core/last-word';
import type { FindSlips } from '@wedgebook/core/suspects';
import type { SheetBand, SheetPoint } from '@wedgebook/charts';
import { suspectCells, type SuspectCells } from '../worksheet/suspect-cells.ts';
import { memo, memoByKey } from './memo.ts';
import type { WorkDocument } from './work.ts';

/** Points along a drawn curve: one for every five or so pixels. */
const SAMPLES = 120;

/** The family in use until the user chooses another. */
export const DEFAULT_FAMILY: CurveFamily = 'toe-shoulder';

/** A strip with its curve, or why it has none. */
export interface StripFit {
  readonly readings: StripReadings;
  readonly fit: CurveFit;
  readonly curve: CharacteristicCurve | null;
  readonly warnings: readonly Warning[];
}

/** A curve as it is drawn. */
export interface DrawnCurve {
  readonly line: readonly SheetPoint[];
  readonly band: readonly SheetBand[];
}

/** The table of the plan, or the default one where the notebook names an unknown table. */
export function gradeTableOf(document: WorkDocument): GradeTable {
  return gradeTables.find(({ id }) => id === document.plan.gradeTableId) ?? ansiGradeTable;
}

/** The choice of a curve among the families: a part of core that comes after the first paint. */
export type CurveChoice = Pick<typeof LastWord, 'fitCurve' | 'fitPaperCurve' | 'compareFamilies'>;

export class Derive {
  /**
   * Chooses curves as the command does. Until it has come, and where it cannot be loaded
   * (`'lost'`), a strip has its first curve: toe and shoulder, untested.
   */
  curves: CurveChoice | 'awaited' | 'lost';
  /** Looks for slips in the readings; loaded after the first paint, none are looked for before. */
  findSlips: FindSlips | undefined;
  readonly #fits = memoByKey(fitStrip);
  readonly #drawn = memoByKey(drawCurve);
  readonly #slips = memoByKey(
    ({ curve, readings }: StripFit, find: FindSlips | undefined): readonly Warning[] =>
      curve === null ? [] : (find?.(curve, readings) ?? []),
  );
  readonly #suspects = memoByKey(
    (
      strip: Strip,
      warnings: readonly Warning[],
      slips: readonly Warning[],
      tablets: readonly Tablet[],
    ) => suspectCells(strip, [...slips, ...warnings], tabletLookup({ tablets })),
  );
  readonly #film = memoByKey((fit: StripFit): FilmMeasures | null =>
    fit.curve === null
      ? null
      : filmMeasures(fit.curve, { exposureKind: fit.readings.exposureKind }),
  );
  readonly #paper = memoByKey((fit: StripFit, table: GradeTable): PaperMeasures | null =>
    fit.curve === null
      ? null
      : paperMeasures(fit.curve, { exposureKind: fit.readings.exposureKind, gradeTable: table }),
  );
  readonly #strips = memo(
    (strips: readonly Strip[]) => new Map(strips.map((strip) => [strip.id, strip])),
  );

  constructor(curves: CurveChoice | 'awaited' = 'awaited') {
    this.curves = curves;
  }

  stripOf(document: WorkDocument, id: string | null): Strip | null {
    return id === null ? null : (this.#strips(document.strips).get(id) ?? null);
  }

  /** The curve of a strip by a family. */
  fit(document: WorkDocument, strip: Strip, family: CurveFamily): StripFit {
    const { rows, unexposedDensities, exposure, tabletId } = strip;
    const key = `${strip.id} ${family}`;
    return this.#fits(
      key,
      rows,
      unexposedDensities,
      exposure,
      tabletId,
      strip.material,
      document.tablets,
      family,
      this.curves,
    );
  }

  /**
   * What there is to say of a strip's readings, by the cells that it speaks of. The search for
   * slips takes longer than the fit: ask after the frame.
   */
  suspectCells(document: WorkDocument, strip: Strip, fit: StripFit): SuspectCells {
    const slips = this.#slips(strip.id, fit, this.findSlips);
    return this.#suspects(strip.id, strip, fit.warnings, slips, document.tablets);
  }

  drawn(strip: Strip, fit: StripFit): DrawnCurve {
    return this.#drawn(strip.id, fit);
  }

  film(strip: Strip, fit: StripFit): FilmMeasures | null {
    return this.#film(strip.id, fit);
  }

  paper(strip: Strip, fit: StripFit, table: GradeTable): PaperMeasures | null {
    return this.#paper(strip.id, fit, table);
  }
}

function fitStrip(
  rows: Strip['rows'],
  unexposedDensities: Strip['unexposedDensities'],
  exposure: Strip['exposure'],
  tabletId: Strip['tabletId'],
  material: Strip['material'],
  tablets: readonly Tablet[],
  family: CurveFamily,
  curves: CurveChoice | 'awaited' | 'lost',
): StripFit {
  // Only these fields of the strip bear on its readings.
  const strip = { rows, unexposedDensities, exposure, tabletId, material } as Strip;
  const lookup = tabletLookup({ tablets });
  const readings = stripReadings(strip, lookup);
  const fit = chosenCurve(readings, material, family, curves);
  const { unreadCells, impossible } = readings;
  const left: Warning[] = [
    ...(curves === 'lost' && fit.status === 'ok' ? [warning('curve-preliminary')] : []),
    ...(unreadCells > 0
      ? [warning('steps-unread', { count: unreadCells, ...placesOf('steps', unreadSteps(rows)) })]
      : []),
    ...(impossible > 0 ? [warning('readings-impossible', { count: impossible })] : []),
  ];
  return {
    readings,
    fit,
    curve: fit.status === 'ok' ? fit.curve : null,
    warnings: [...fit.warnings.map((each) => withNegativeSteps(each, rows)), ...left],
  };
}

function unreadSteps(rows: Strip['rows']): readonly number[] {
  const isUnread = ({ densities }: StripRow) =>
    densities.length === 0 || densities.some((density) => density === null);
  return rows.filter(isUnread).map(({ step }) => step);
}

/** The fit knows exposures; the page knows the steps. */
function withNegativeSteps(given: Warning, rows: Strip['rows']): Warning {
  if (given.code !== 'density-slightly-negative') return given;
  const isNegative = ({ densities }: StripRow) =>
    densities.some((density) => density !== null && density < 0);
  const steps = rows.filter(isNegative).map(({ step }) => step);
  return { ...given, details: { ...given.details, ...placesOf('steps', steps) } };
}

/**
 * The curve that readings ask for, or the family that the user chose. The default is the command's:
 * toe and shoulder unless the readings say otherwise; a paper, which is a sigmoid, follows the family
 * that fits it best.
 */
function chosenCurve(
  readings: StripReadings,
  material: Strip['material'],
  family: CurveFamily,
  curves: CurveChoice | 'awaited' | 'lost',
): CurveFit {
  if (typeof curves === 'string') return firstCurve(readings);
  if (family !== DEFAULT_FAMILY) return curves.fitCurve(readings, { family });
  return material === 'paper' ? curves.fitPaperCurve(readings) : curves.fitCurve(readings);
}

function drawCurve({ curve }: StripFit): DrawnCurve {
  if (curve === null) return { line: [], band: [] };
  const [from, to] = curve.logExposureRange;
  const exposures = Array.from(
    { length: SAMPLES + 1 },
    (_, i) => from + ((to - from) * i) / SAMPLES,
  );
  const line = exposures.map((logExposure) => ({
    logExposure,
    density: densityAt(curve, logExposure),
  }));
  const every = exposures.filter((_, i) => i % 3 === 0);
  const band = densityBand(curve, every).map(({ logExposure, lower, upper }) => ({
    logExposure,
    low: lower,
    high: upper,
  }));
  return { line, band: curve.residualStandardDeviation === null ? [] : band };
}
