/** How a film develops, from a file of its strips with minutes. */
import { contrastOf, fitContrastModel, type KnownDevelopment, type Warning } from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import { inputFault } from '@wedgebook/notebook';
import type { StripOptions } from '../input/strip-options.ts';
import { fileName, readReadingsFile } from '../input/read-file.ts';
import type { CommandIo } from '../io.ts';
import { fittedStrip } from '../strips/fitted-strip.ts';
import { stripsOf } from '../strips/strips-of.ts';

const MEASURE = 'contrast-index';

/**
 * Contrast index against time of the untreated strips.
 *
 * @throws {InputError} where no strip gives a contrast at a time
 */
export async function developmentFrom(
  file: string,
  io: CommandIo,
  options: StripOptions,
): Promise<{ readonly known: KnownDevelopment; readonly warnings: readonly Warning[] }> {
  const readings = await readReadingsFile(file, io, options);
  const { strips, warnings } = stripsOf('film', readings, fileName(file));
  const timed = strips.flatMap((strip) => {
    const { minutes, celsius, treatment } = strip;
    if (treatment !== null || minutes === null || !(minutes > 0)) return [];
    const { curve } = fittedStrip(strip, options.exposure, options.model);
    const contrast = curve && contrastOf(curve, MEASURE);
    if (contrast === null) return [];
    return [{ minutes, contrast, ...(celsius !== null && { celsius }) }];
  });
  if (timed.length === 0) throw inputFault.noTimes({ file: fileName(file) }, 'contrast index');
  const fit = fitContrastModel(timed, {
    temperatureCoefficient: developmentDefaults.temperatureCoefficient.value,
  });
  return {
    known: { model: fit.status === 'ok' ? fit.model : null, minutes: null, celsius: 20 },
    warnings: [...warnings, ...fit.warnings],
  };
}
