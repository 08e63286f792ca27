/**
 * The tone chain of the print: the negative's shadow is placed on a zone, flare of camera and
 * enlarger count, and both prints hold the highlight as wanted.
 */
import {
  fourQuadrants,
  LOG_STOP,
  placedSubject,
  printLogExposureFor,
  toneErrorsOf,
  tonePrinter,
  usefulSubjectRange,
  zoneTones,
  type CharacteristicCurve,
  type FourQuadrants,
  type SubjectTone,
  type ToneChain,
  type ToneErrors,
  type TreatmentEffect,
  type UsefulSubjectRange,
  type ZoneTone,
} from '@wedgebook/core';
import type { PrintingView } from './derive-printing.ts';

export interface ChainRow {
  readonly role: 'before' | 'after';
  readonly chain: ToneChain;
  readonly quadrants: FourQuadrants;
  readonly zones: readonly ZoneTone[];
  readonly range: UsefulSubjectRange;
  readonly follow: (logLuminance: number) => SubjectTone;
  /** Standard errors of a tone. */
  readonly errors: (tone: SubjectTone) => ToneErrors;
}

export type ChainView =
  | { readonly status: 'ok'; readonly rows: readonly ChainRow[] }
  | { readonly status: 'shadow-off-curve' | 'highlight-off-paper' };

export interface ChainSettings {
  /** Zone on which the negative's shadow is placed. */
  readonly shadowZone: number;
  readonly subjectRangeStops: number;
  readonly flareFactor: number;
}

/** Stops of the subject that are drawn below and above zone V. */
const DRAWN = 5;

/**
 * @param view - the print
 * @param film - the curve that the negative lies on
 * @param settings - where the shadow is placed, subject and flare
 */
export function chainView(
  view: PrintingView,
  film: CharacteristicCurve,
  settings: ChainSettings,
): ChainView {
  const placed = placedSubject(film, { ...settings, shadowDensity: view.spots.shadow });
  if (placed === null) return { status: 'shadow-off-curve' };
  const rows = (['before', 'after'] as const).map((role): ChainRow | null => {
    const effect: TreatmentEffect = role === 'before' ? view.untreated : view.treated;
    const aim = { negativeDensity: view.spots.highlight, printDensity: view.wanted.highlight };
    if (!(aim.printDensity > view.inUse.white)) return null;
    const printLogExposure = printLogExposureFor({ ...view.light, effect }, aim);
    if (printLogExposure === null) return null;
    const printing = { ...view.light, effect, printLogExposure };
    const chain: ToneChain = { film, ...placed, printing };
    return {
      role,
      chain,
      quadrants: fourQuadrants(chain, -DRAWN * LOG_STOP, DRAWN * LOG_STOP),
      zones: zoneTones(chain),
      range: usefulSubjectRange(chain),
      follow: tonePrinter(chain),
      errors: toneErrorsOf(
        chain,
        view.inUse.measured,
        {
          negativeDensity: view.spots.shadow,
          printDensity: view.wanted.highlight,
          timedNegativeDensity: view.spots.highlight,
        },
        view.callierFactorError,
      ),
    };
  });
  const found = rows.filter((row) => row !== null);
  return found.length === 0 ? { status: 'highlight-off-paper' } : { status: 'ok', rows: found };
}
