/**
 * The user's notebook as plain, immutable JSON: what was typed or read, never what follows from it.
 *
 * Densities are dimensionless (base 10). Log exposures are log10 of lux-seconds where the strip's
 * exposure is absolute, and relative (the unattenuated light is 0) otherwise. Ids are opaque, are
 * given by whoever makes the command, and are unique within their list.
 * Sources: none. Deviations: none.
 */

/** The densitometer channel of a reading: the light through which the density was taken. */
export type Channel = 'visual' | 'blue' | 'green' | 'red' | 'ultraviolet';

/** A step tablet of the user's own. Built-in tablets are not stored; strips name them by id. */
export interface Tablet {
  readonly id: string;
  readonly name: string;
  /** Density of step 1, step 2, ... above the empty light path. */
  readonly densities: readonly number[];
  readonly kind: 'nominal' | 'calibrated';
  readonly note: string;
}

/** A film with its developer: what strips and negatives have in common. */
export interface Film {
  readonly id: string;
  readonly name: string;
  readonly developer: string;
  readonly note: string;
}

/** One step of a strip. */
export interface StripRow {
  /** Step number, counted from 1 as the tablet counts. */
  readonly step: number;
  /** Log exposure of this step, in place of the one that follows from the tablet; null for none. */
  readonly logExposure: number | null;
  /** Replicate readings of this step; null is a cell that was not read. */
  readonly densities: readonly (number | null)[];
}

/**
 * How a strip was exposed. `sourceLogExposure` is log10 of the lux-seconds that reach the material
 * without the tablet; null where every row carries its own absolute log exposure.
 */
export type Exposure =
  | { readonly kind: 'relative' }
  | { readonly kind: 'absolute'; readonly sourceLogExposure: number | null };

/** How a strip was developed. */
export interface Development {
  readonly minutes: number;
  readonly celsius: number;
}

/** The bath that a strip went through after development, and the strip it is compared with. */
export interface Treatment {
  readonly process: 'selenium';
  /** n of the dilution 1+n: parts of water to one of concentrate. */
  readonly partsWater: number;
  readonly minutes: number;
  readonly celsius: number;
  /** The untreated strip of the same exposure; null where it was removed or never named. */
  readonly untreatedStripId: string | null;
}

/** One exposed and processed wedge with its readings. */
export interface Strip {
  readonly id: string;
  readonly name: string;
  readonly material: 'film' | 'paper';
  readonly filmId: string | null;
  readonly channel: Channel;
  /** A user's tablet or a built-in one; null where the rows carry their own log exposures. */
  readonly tabletId: string | null;
  readonly exposure: Exposure;
  readonly rows: readonly StripRow[];
  /** Readings of the processed but unexposed material: base + fog. */
  readonly unexposedDensities: readonly number[];
  readonly development: Development | null;
  readonly treatment: Treatment | null;
  readonly note: string;
}

/** Where a paper's exposure scale comes from. */
export type PaperSource =
  /** A paper strip; null where the strip was removed. */
  | { readonly kind: 'strip'; readonly stripId: string | null }
  /** An ISO range R: 100 times the log exposure range. */
  | { readonly kind: 'iso-range'; readonly isoRange: number }
  /** The middle of a grade's band in one of the built-in tables. */
  | { readonly kind: 'grade-table'; readonly tableId: string; readonly band: number };

export interface Paper {
  readonly id: string;
  readonly name: string;
  readonly source: PaperSource;
  readonly note: string;
}

/** A reading on a negative. `density` is gross: it includes base + fog. */
export interface Spot {
  readonly id: string;
  readonly name: string;
  readonly density: number;
  readonly role: 'shadow' | 'highlight' | 'other';
}

export interface Negative {
  readonly id: string;
  readonly name: string;
  readonly filmId: string | null;
  /** The strip whose curve stands for this negative. */
  readonly stripId: string | null;
  /** Base + fog read on this negative; null to take it from the strip. */
  readonly baseFog: number | null;
  readonly spots: readonly Spot[];
  /** Density range known without spots, such as from an older record; spots count before it. */
  readonly densityRange?: number | null;
  readonly note: string;
}

/** A film that went through a bath. */
export interface BathFilm {
  readonly id: string;
  readonly name: string;
  /** Day, such as 2026-11-25; null where it is not known. */
  readonly day: string | null;
  readonly areaSquareCentimetres: number;
  /** Mean net density over the area, by which the silver is reckoned. */
  readonly meanNetDensity: number;
}

/** A working bath that is used again until it is spent. */
export interface WorkingBath {
  readonly id: string;
  readonly name: string;
  readonly process: 'selenium';
  /** Day on which it was mixed, such as 2026-11-25; null where it is not known. */
  readonly mixedOn: string | null;
  /** Working solution, millilitres. */
  readonly volumeMillilitres: number;
  readonly partsWater: number;
  /** Selenium in the concentrate, grams per litre, by its safety data sheet; null where not known. */
  readonly seleniumGramsPerLitre: number | null;
  readonly films: readonly BathFilm[];
  readonly note: string;
}

/** The bath being considered, and what it is meant for. */
export interface Plan {
  readonly negativeId: string | null;
  readonly paperId: string | null;
  readonly gradeTableId: string;
  /** Printing density over diffuse density; 1 for diffuse light. */
  readonly callierFactor: number;
  readonly process: 'selenium';
  readonly partsWater: number;
  readonly minutes: number;
  readonly celsius: number;
  /** Density of image stain per unit of silver density, in the paper's channel. */
  readonly stain: number;
  /** The share of the stain that the bath leaves, 0 to 1. */
  readonly stainKept: number;
}

export interface NotebookDocument {
  readonly title: string;
  readonly note: string;
  /** True where the readings were made up, as in the demonstration notebook. */
  readonly invented: boolean;
  readonly tablets: readonly Tablet[];
  readonly films: readonly Film[];
  readonly strips: readonly Strip[];
  readonly papers: readonly Paper[];
  readonly negatives: readonly Negative[];
  readonly baths: readonly WorkingBath[];
  readonly plan: Plan;
}
