/**
 * Seconds for strips whose light was not counted in seconds of the enlarger: one print tells them.
 *
 *   log t = L + c,   c = log t0 - (x(D0) + n0)
 *
 * t0 seconds of a print that has been made, n0 and D0 densities of negative and print at one spot.
 * With strips exposed for t0 seconds at the same aperture and height and log exposures counted from
 * the unattenuated light, c is log t0 itself.
 *
 * Sources: derived from the density and time rule of [CLERC]. Deviations: reciprocity failure of
 * paper is left out.
 */
import { InvalidArgumentError } from '../errors.ts';
import { combinedError, type Estimate } from '../estimate.ts';
import { exposureForTone, paperResponse, type PrintPaper } from '../paper/index.ts';

/** A print that has been made, by one spot. */
export interface ReferencePrint {
  readonly seconds: number;
  /** Gross, as the paper sees it. */
  readonly negativeDensity: Estimate;
  readonly printDensity: Estimate;
}

/**
 * log10 seconds for a log exposure of 0 in the unit of the strips.
 *
 * @param paper - the paper at the setting of the print
 * @param print - seconds and one spot
 * @param paperWhiteDensity - where the paper has none of its own
 * @returns c with the error of the two readings, or null where the paper does not reach the density.
 *   For a generated paper c counts from the threshold
 * @throws InvalidArgumentError if the time is not above zero
 */
export function logSecondsOfUnit(
  paper: PrintPaper,
  print: ReferencePrint,
  paperWhiteDensity: number,
): Estimate | null {
  const { seconds, negativeDensity, printDensity } = print;
  if (!(seconds > 0 && seconds < Infinity)) {
    throw new InvalidArgumentError('logSecondsOfUnit', 'seconds', seconds, 'above zero');
  }
  const response = paperResponse(paper);
  const net = printDensity.value - (response.whiteDensity ?? paperWhiteDensity);
  const above = net > 0 ? exposureForTone(response, net) : null;
  if (above === null) return null;
  const { gradient } = response.tone(above);
  const x = (response.thresholdLogExposure ?? 0) + above;
  return {
    value: Math.log10(seconds) - (x + negativeDensity.value),
    standardError: combinedError(
      negativeDensity.standardError,
      printDensity.standardError === null ? null : printDensity.standardError / gradient,
    ),
  };
}
