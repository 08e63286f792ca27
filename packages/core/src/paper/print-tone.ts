/**
 * The tone that one exposure prints.
 *
 * Sources: see `paper-response.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { paperResponse, type PrintTone } from './paper-response.ts';
import type { PrintPaper } from './print-paper.ts';

/**
 * The tone that an exposure prints. For many exposures make the paper ready once, by
 * `paperResponse`.
 *
 * @param paper - the paper
 * @param aboveThreshold - log exposure above the one that just darkens the paper (net 0.04)
 * @returns net density and gradient
 * @throws InvalidArgumentError if `aboveThreshold` is not finite
 * @throws OutOfDomainError if a strip's curve never darkens to net 0.04
 * @example
 * printTone(generatedPaper(1.05), 0).netDensity.toFixed(3); // => '0.040'
 */
export function printTone(paper: PrintPaper, aboveThreshold: number): PrintTone {
  if (!Number.isFinite(aboveThreshold)) {
    throw new InvalidArgumentError('printTone', 'aboveThreshold', aboveThreshold, 'finite');
  }
  return paperResponse(paper).tone(aboveThreshold);
}
