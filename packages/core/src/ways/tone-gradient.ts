/**
 * Slope of the print's density by log exposure, on any paper that a way is reckoned on.
 *
 * Sources: see `../paper/print-paper.ts` and `../printing/variable-contrast`. Deviations: none.
 */
import { printTone } from '../paper/index.ts';
import { gradientOfMixedExposure } from '../printing/index.ts';
import { thresholdOf } from './split-way.ts';
import type { WayPaper } from './way-out.ts';

/**
 * @param paper - a strip, a generated paper, or a mixture of lights on variable-contrast paper
 * @returns the slope at a log exposure above the one that just darkens the paper (net 0.04)
 */
export function toneGradient(paper: WayPaper): (aboveThreshold: number) => number {
  if (paper.kind !== 'mixed') return (above) => printTone(paper, above).gradient;
  const { logRatio } = paper;
  const threshold = thresholdOf(paper.paper, logRatio);
  return (above) =>
    gradientOfMixedExposure(paper.paper, {
      softLogExposure: threshold + above,
      hardLogExposure: threshold + above + logRatio,
    });
}
