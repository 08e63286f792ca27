/**
 * What the user must know beside a number. Core gives the code and the figures; the sentences are
 * written once, in @wedgebook/notebook, for the app and the command alike.
 */

/** Every warning code, by room. Add the sentence in notebook/src/wording when adding a code. */
export type WarningCode =
  // readings
  | 'readings-reversed'
  | 'density-falls-with-exposure'
  | 'density-slightly-negative'
  | 'replicates-disagree'
  | 'steps-unread'
  | 'readings-impossible'
  | 'figures-impossible'
  | 'step-sets-conflict'
  | 'unexposed-denser'
  | 'unexposed-step'
  | 'columns-ignored'
  | 'strips-left-out'
  | 'exposure-assumed-absolute'
  | 'exposure-relative'
  // curve
  | 'shoulder-not-determined'
  | 'no-straight-part'
  | 'base-fog-extrapolated'
  | 'lack-of-fit'
  | 'suspect-reading'
  | 'step-slip'
  | 'fit-not-converged'
  | 'curve-not-determined'
  | 'curve-preliminary'
  | 'curve-not-monotone'
  // film
  | 'speed-point-extrapolated'
  | 'speed-point-not-reached'
  | 'iso-triangle-not-met'
  | 'slope-from-drawn-curve'
  | 'measure-extrapolated'
  | 'measure-not-reached'
  | 'contrast-index-ambiguous'
  | 'contrast-index-not-determined'
  // paper
  | 'paper-maximum-not-reached'
  | 'paper-minimum-not-reached'
  | 'range-outside-grades'
  | 'grade-tables-disagree'
  | 'value-unverified'
  | 'setting-left-out'
  | 'settings-without-numbers'
  | 'settings-alike'
  | 'paper-from-published-table'
  // match and treatment
  | 'highlight-thinner-than-shadow'
  | 'grade-from-published-bands'
  | 'gain-above-bound'
  | 'gain-below-one'
  | 'dose-response-default'
  | 'dose-response-not-determined'
  | 'dose-extrapolated'
  | 'law-lowers-densities'
  | 'stain-may-be-lost'
  | 'target-not-reachable'
  | 'strips-unpaired'
  | 'steps-unpaired'
  | 'shadow-density-assumed'
  | 'reading-error-assumed'
  | 'bath-temperature-assumed'
  | 'untreated-pooled'
  | 'process-unknown'
  // development
  | 'development-scaled-guess'
  | 'delay-assumed'
  | 'temperature-coefficient-assumed'
  | 'contrast-falls-with-time'
  | 'contrast-not-reachable'
  | 'near-contrast-limit'
  | 'short-development'
  | 'time-extrapolated'
  | 'development-time-missing'
  | 'contrast-not-measured'
  | 'treated-left-out'
  | 'contrast-law-impossible'
  | 'contrast-not-begun'
  | 'channels-mixed'
  | 'surface-not-determined'
  | 'zones-not-placed'
  | 'zones-extrapolated'
  | 'process-drifts'
  | 'too-few-control-strips'
  // exchange
  | 'development-temperature-assumed'
  | 'treatment-not-modelled'
  | 'bath-incomplete'
  | 'strips-alone-exchanged'
  | 'notebook-too-long'
  | 'strip-renamed'
  | 'reference-mended'
  | 'steps-without-exposure'
  | 'rows-miscounted'
  // scans
  | 'scan-not-read'
  | 'scan-clipped'
  | 'scan-tablet-clipped'
  | 'scan-beyond-tablet'
  | 'scan-flare'
  | 'scan-response-encoded'
  | 'scan-response-irregular'
  | 'scan-tablet-scatters'
  | 'scan-few-levels'
  | 'scan-step-uneven'
  | 'scan-light-assumed-even'
  // tables of numbers
  | 'rows-incomplete';

export type WarningDetails = Readonly<Record<string, number | string>>;

/** A warning: `code` to narrow on, `details` with the figures that its sentence quotes. */
export interface Warning {
  readonly code: WarningCode;
  readonly details: WarningDetails;
}

export function warning(code: WarningCode, details: WarningDetails = {}): Warning {
  return { code, details };
}
