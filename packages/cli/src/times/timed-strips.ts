/** The strips of a file that tell of development: a time, a contrast, perhaps a speed point. */
import {
  contrastOf,
  isoSpeed,
  speedPointOf,
  warning,
  type CharacteristicCurve,
  type CurveReadings,
  type Estimate,
  type ExposureIndex,
  type Warning,
} from '@wedgebook/core';
import { inputFault, type ReadingsStrip } from '@wedgebook/notebook';
import { fileName } from '../input/read-file.ts';
import type { StripOptions } from '../input/strip-options.ts';
import { fittedStrip } from '../strips/fitted-strip.ts';
import { USAGE } from '../text.ts';
import { measureWords } from './times-words.ts';
import { UsageError } from '../usage-error.ts';
import type { Order } from './order.ts';

/** A strip with its time, contrast and speed point. */
export interface TimedStrip {
  readonly strip: ReadingsStrip;
  readonly minutes: number;
  readonly celsius: number | null;
  readonly readings: CurveReadings;
  readonly curve: CharacteristicCurve;
  readonly contrast: Estimate;
  /** Null where the exposure is relative or the speed point is not reached. */
  readonly speedPoint: Estimate | null;
  readonly exposureIndex: ExposureIndex | null;
}

/** Development temperatures that the laws hold for. */
const COLDEST = 0;
const WARMEST = 60;

/**
 * @throws {InputError} where a strip was developed at an impossible temperature
 * @throws {UsageError} where the file holds several films and none is named
 */
export function timedStrips(
  strips: readonly ReadingsStrip[],
  options: StripOptions,
  order: Order,
  file: string,
): { readonly strips: readonly TimedStrip[]; readonly warnings: readonly Warning[] } {
  const warnings: Warning[] = [];
  const untreated = strips.filter((strip) => strip.treatment === null);
  if (untreated.length < strips.length) {
    warnings.push(warning('treated-left-out', { count: strips.length - untreated.length }));
  }
  const timed = untreated.flatMap((strip): TimedStrip[] => {
    const { minutes, celsius, name } = strip;
    if (minutes === null || minutes === 0) {
      warnings.push(warning('development-time-missing', { strip: name }));
      return [];
    }
    if (celsius !== null && !(celsius >= COLDEST && celsius <= WARMEST)) {
      const place = { file: fileName(file), row: strip.firstRow, column: 'celsius' };
      throw inputFault.outOfRange(place, celsius, COLDEST, WARMEST);
    }
    const fitted = fittedStrip(strip, options.exposure, options.model);
    const { curve, exposureKind, readings } = fitted;
    // What concerns a single curve is for the verb film to tell; here only the exposures matter.
    warnings.push(...fitted.warnings.filter(({ code }) => code.startsWith('exposure-')));
    const contrast = curve && contrastOf(curve, order.measure);
    if (curve === null || contrast === null || !(contrast.value > 0)) {
      const words = measureWords(order.measure);
      warnings.push(warning('contrast-not-measured', { strip: name, measure: words }));
      return [];
    }
    const speedPoint =
      exposureKind === 'absolute' ? speedPointOf(curve, order.shadowDensity) : null;
    return [
      {
        strip,
        minutes,
        celsius,
        readings,
        curve,
        contrast,
        speedPoint,
        exposureIndex: speedPoint && indexOf(speedPoint),
      },
    ];
  });
  const channels = new Set(timed.flatMap(({ strip }) => strip.channel ?? []));
  if (channels.size > 1) {
    warnings.push(warning('channels-mixed', { channels: [...channels].join(', ') }));
  }
  return { strips: timed, warnings };
}

/** The strips of one film, where the source tells films apart. */
export function stripsOfFilm(
  strips: readonly ReadingsStrip[],
  wanted: string | undefined,
): readonly ReadingsStrip[] {
  const films = [...new Set(strips.flatMap(({ film }) => film ?? []))];
  if (wanted === undefined) {
    if (films.length > 1) throw new UsageError(USAGE.severalFilms(films));
    return strips;
  }
  const name = films.find((film) => film.toLowerCase() === wanted.toLowerCase());
  if (name === undefined) throw new UsageError(USAGE.noSuchFilm(wanted, films));
  return strips.filter(({ film }) => film === name);
}

function indexOf({ value, standardError }: Estimate): ExposureIndex {
  const { exact, arithmetic, degrees } = isoSpeed(value);
  return {
    exact: {
      value: exact,
      standardError: standardError === null ? null : Math.LN10 * exact * standardError,
    },
    arithmetic,
    degrees,
  };
}
