/**
 * What the curve sheet draws, in data units.
 */

export interface SheetPoint {
  /** log10 of lux-seconds, or relative log10. */
  readonly logExposure: number;
  readonly density: number;
}

export interface SheetBand {
  readonly logExposure: number;
  readonly low: number;
  readonly high: number;
}

export interface SheetSeries {
  readonly id: string;
  /** Short name written beside the curve. */
  readonly label: string;
  readonly role: 'before' | 'after' | 'other' | 'paper';
  /** The curve, log exposure ascending. */
  readonly line: readonly SheetPoint[];
  /** The readings. */
  readonly markers: readonly SheetPoint[];
  /** Confidence band around the curve. */
  readonly band?: readonly SheetBand[];
}

/** The negative's printing range on a paper: what the companion panel shows. */
export interface RangeOnPaper {
  /** e.g. `before`, `after 6.5 min`. */
  readonly label: string;
  readonly role: 'before' | 'after';
  /** Density of the negative where the print must be just darker than its deepest black allows. */
  readonly shadowDensity: number;
  readonly highlightDensity: number;
  /** log10 range of light that the negative lets the paper see between the two. */
  readonly printingRange: number;
  /** e.g. `grade 3`, shown with the range. */
  readonly verdict: string;
  /** False where the negative belongs to another curve than the one drawn; true unless given. */
  readonly onCurve?: boolean;
}

export interface PaperScale {
  /** e.g. `grade 2`, `own paper`. */
  readonly label: string;
  /** Log exposure range that the paper turns into its useful tones. */
  readonly exposureScale: number;
}

export interface GradeBand {
  readonly label: string;
  readonly lower: number;
  readonly upper: number;
}

export interface SheetPaperFit {
  readonly paper: PaperScale | null;
  readonly bands: readonly GradeBand[];
  /** One or two ranges: before the bath, after it. */
  readonly ranges: readonly RangeOnPaper[];
}

export interface CurveSheetInput {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly exposureKind: 'absolute' | 'relative';
  readonly series: readonly SheetSeries[];
  readonly speedPoint: SheetPoint | null;
  readonly baseFog: number | null;
  readonly fit: SheetPaperFit | null;
  /** Ends of the density axis; `sheetDensities` of the same input unless given. */
  readonly densities?: readonly [number, number];
}
