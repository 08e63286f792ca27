/** Exposures of the sheet as a whole, and what an area of it prints as. */
import {
  burnIn,
  LOG_STOP,
  negativePrinter,
  printLogExposureFor,
  type WholeExposure,
} from '@wedgebook/core';
import type { PrintArea, Printing } from '@wedgebook/notebook';
import type { PrintingView } from './derive-printing.ts';
import type { SplitView } from './derive-split.ts';

/** The exposures of the whole sheet: a split where one is taken, else the base. */
export function exposuresOf({ softSeconds, hardSeconds, baseSeconds }: Printing): WholeExposure[] {
  if (softSeconds !== null && hardSeconds !== null) {
    return [
      { light: 'soft', seconds: softSeconds },
      { light: 'hard', seconds: hardSeconds },
    ].filter(({ seconds }) => seconds > 0);
  }
  return baseSeconds === null || !(baseSeconds > 0)
    ? []
    : [{ light: 'whole', seconds: baseSeconds }];
}

/** What the area prints as without its change and with it, on the untreated negative. */
export function toneOf(
  { density, light, stops }: PrintArea,
  printing: Printing,
  view: PrintingView,
  split: SplitView | null,
): { before: number; after: number } | null {
  if (density === null) return null;
  const effect = view.untreated;
  if (light === 'whole') {
    const aim = { negativeDensity: view.spots.highlight, printDensity: view.wanted.highlight };
    if (!(aim.printDensity > view.inUse.white)) return null;
    const exposure = printLogExposureFor({ ...view.light, effect }, aim);
    if (exposure === null) return null;
    const at = (printLogExposure: number) =>
      negativePrinter({ ...view.light, effect, printLogExposure })(density).printDensity;
    return { before: at(exposure), after: at(exposure + LOG_STOP * stops) };
  }
  const { softSeconds, hardSeconds } = printing;
  if (split === null || softSeconds === null || hardSeconds === null) return null;
  const lights = split.lights(softSeconds, hardSeconds);
  if (lights === null) return null;
  const seen = -negativePrinter({ ...view.light, effect, printLogExposure: 0 })(density)
    .paperLogExposure;
  const area = light === 'soft' ? { softStops: stops } : { hardStops: stops };
  const [tone] = burnIn(split.layers, lights, area, [seen]).tones;
  return tone === undefined
    ? null
    : { before: tone.before.printDensity, after: tone.after.printDensity };
}
