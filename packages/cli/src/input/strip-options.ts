/** The options that say how a file of readings is to be taken: the same for every verb. */
import { CURVE_FAMILIES, type CurveFamily } from '@wedgebook/core';
import {
  builtInTablets,
  type ExposureOptions,
  type ReadingsFile,
  type ReadingsStrip,
} from '@wedgebook/notebook';
import { nominalTablets } from '@wedgebook/data';
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Arguments, OptionKinds } from './arguments.ts';
import { fileName } from './read-file.ts';

export const EXPOSURE_OPTIONS = {
  'log-exposure': { type: 'string' },
  'source-log-exposure': { type: 'string' },
  tablet: { type: 'string' },
} as const satisfies OptionKinds;

export const STRIP_OPTIONS = {
  ...EXPOSURE_OPTIONS,
  model: { type: 'string' },
} as const satisfies OptionKinds;

export interface StripOptions {
  readonly exposure: ExposureOptions;
  readonly stepsSuffice: boolean;
  readonly model: CurveFamily | undefined;
}

/** @throws {UsageError} for an unknown tablet, model or kind of exposure */
export function stripOptions(given: Arguments, file: string): StripOptions {
  const tabletId = given.choice(
    'tablet',
    nominalTablets.map(({ id }) => id),
  );
  const tabletDensities = tabletId === undefined ? null : builtInTablets(tabletId);
  const logExposure = given.choice('log-exposure', ['absolute', 'relative']);
  const sourceLogExposure = given.number('source-log-exposure', -12, 12);
  return {
    exposure: {
      file: fileName(file),
      ...(logExposure !== undefined && { logExposure }),
      ...(sourceLogExposure !== undefined && { sourceLogExposure }),
      ...(tabletDensities !== null && { tabletDensities }),
    },
    stepsSuffice: tabletDensities !== null,
    model: given.choice('model', CURVE_FAMILIES),
  };
}

/**
 * `--log-exposure absolute` has no meaning for tablet densities without the light behind them.
 *
 * @throws {UsageError}
 */
export function requireSource({ strips }: ReadingsFile, options: StripOptions): void {
  for (const strip of strips) requireSourceOf(strip, options);
}

/** As `requireSource`, for one strip. */
export function requireSourceOf(strip: ReadingsStrip, { exposure }: StripOptions): void {
  if (exposure.logExposure !== 'absolute' || exposure.sourceLogExposure !== undefined) return;
  if (strip.readings.some(({ logExposure }) => logExposure === null)) {
    throw new UsageError(USAGE.absoluteWithoutSource);
  }
}
