/**
 * Treated strips of a file, each with the untreated strip of the same exposure; where nothing
 * tells several apart, they are taken together, with a warning.
 */
import { warning, type CurveReadings, type TreatedStrip, type Warning } from '@wedgebook/core';
import {
  curveReadingsOf,
  inputFault,
  untreatedPartners,
  type ExposureOptions,
  type ReadingsFile,
  type ReadingsStrip,
} from '@wedgebook/notebook';

export interface TreatedStrips {
  readonly strips: readonly TreatedStrip[];
  /** The process that the file names. */
  readonly process: string;
  /** Row of the file where the first treated strip begins. */
  readonly firstRow: number;
  readonly warnings: readonly Warning[];
}

/** Temperature taken where the file gives none, °C. */
const USUAL_CELSIUS = 20;

interface Read {
  readonly strip: ReadingsStrip;
  readonly readings: CurveReadings;
}

/** @throws {InputError} where nothing was treated, a bath is incomplete, or processes are mixed */
export function treatedStrips(file: ReadingsFile, exposure: ExposureOptions): TreatedStrips {
  const place = exposure.file === undefined ? {} : { file: exposure.file };
  const warnings: Warning[] = [...file.warnings];
  const paired = stepsAsExposures(file, exposure);
  const read = file.strips.map((strip): Read => {
    const taken = curveReadingsOf(strip, paired, 1);
    // Whether exposures are absolute is of no account here: only pairs are compared.
    warnings.push(...strip.warnings);
    return { strip, readings: taken.readings };
  });
  const untreated = read.map((one) => ({ ...one, logExposures: one.readings.logExposures }));
  const treated = read.filter(({ strip }) => strip.treatment !== null);
  const [first] = treated;
  if (first === undefined) throw inputFault.nothingTreated(place);
  const process = first.strip.treatment ?? '';
  const strips = treated.map(({ strip, readings }): TreatedStrip => {
    const at = { ...place, row: strip.firstRow };
    if (strip.treatment !== process) {
      throw inputFault.mixedProcesses({ ...at, column: 'treatment' }, process);
    }
    if (strip.partsWater === null)
      throw inputFault.bathIncomplete({ ...at, column: 'parts_water' });
    if (strip.bathMinutes === null) {
      throw inputFault.bathIncomplete({ ...at, column: 'bath_minutes' });
    }
    if (strip.bathCelsius === null) {
      warnings.push(
        warning('bath-temperature-assumed', { strip: strip.name, celsius: USUAL_CELSIUS }),
      );
    }
    const { logExposures } = readings;
    const partners = untreatedPartners({ strip, logExposures }, untreated);
    if (partners.length > 1) {
      warnings.push(warning('untreated-pooled', { strip: strip.name, count: partners.length }));
    }
    return {
      strip: strip.name,
      bath: {
        partsWater: strip.partsWater,
        minutes: strip.bathMinutes,
        celsius: strip.bathCelsius ?? USUAL_CELSIUS,
      },
      treated: readings,
      untreated: partners.length === 0 ? null : pooled(partners.map((partner) => partner.readings)),
      ...(partners.length > 0 && {
        untreatedStrip: partners.map((partner) => partner.strip.name).join(' + '),
      }),
    };
  });
  if (process !== 'selenium') warnings.push(warning('process-unknown', { process }));
  return { strips, process, firstRow: first.strip.firstRow, warnings };
}

/**
 * Trial pieces are read at the same spots before and after, numbered as steps, and have no exposure:
 * there the number alone pairs the readings.
 */
function stepsAsExposures(file: ReadingsFile, exposure: ExposureOptions): ExposureOptions {
  const readings = file.strips.flatMap((strip) => strip.readings);
  const stepsAlone = readings.every(
    ({ step, logExposure, tabletDensity }) =>
      step !== null && logExposure === null && tabletDensity === null,
  );
  if (!stepsAlone || exposure.tabletDensities !== undefined) return exposure;
  const most = Math.max(0, ...readings.map(({ step }) => step ?? 0));
  if (!(most <= MOST_SPOTS)) return exposure;
  const tabletDensities = Array.from({ length: most }, (_, i) => i * STEP);
  return { ...exposure, tabletDensities };
}

const MOST_SPOTS = 1000;
/** Of no account for pairs: any step keeps the numbers apart. */
const STEP = 0.15;

function pooled(all: readonly CurveReadings[]): CurveReadings {
  return {
    logExposures: all.flatMap(({ logExposures }) => logExposures),
    densities: all.flatMap(({ densities }) => densities),
    unexposedDensities: all.flatMap(({ unexposedDensities = [] }) => unexposedDensities),
  };
}
