/**
 * The user's notebook as plain, immutable JSON: what was typed or read, never what follows from it.
 *
 * Densities are dimensionless (base 10). Log exposures are log10 of lux-seconds where the strip's
 * exposure is absolute, and relative (the unattenuated light is 0) otherwise. Ids are opaque, are
 * given by whoever makes the command, and are unique within their list. A day is a calendar day of
 * the user's own place, such as 2026-11-25; null where it is not known.
 * Sources: none. Deviations: none.
 */
import type { ContrastMeasure, CurveFamily } from '@wedgebook/core';

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

/** A developer as the user mixes it: name, dilution and agitation in the user's own words. */
export interface Developer {
  readonly id: string;
  readonly name: string;
  readonly note: string;
}

/** A film with its developer: what strips and negatives have in common. */
export interface Film {
  readonly id: string;
  readonly name: string;
  readonly developerId: string | null;
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

/** The process whose gain is modelled; any other keeps its readings and is drawn, not predicted. */
export const MODELLED_PROCESS = 'selenium';

/** The bath that a strip went through after development, and the strip it is compared with. */
export interface Treatment {
  /** What it was: `selenium` is modelled, any other word is the user's own. */
  readonly process: string;
  /** n of the dilution 1+n: parts of water to one of concentrate; null where it is not known. */
  readonly partsWater: number | null;
  readonly minutes: number | null;
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
  /** Day on which it was developed. */
  readonly processedOn: string | null;
  /** True for a control strip: exposed alike each time, to watch whether the process drifts. */
  readonly control: boolean;
  readonly treatment: Treatment | null;
  readonly note: string;
}

/** A strip of a variable-contrast paper, and the light that it was exposed to. */
export interface PaperStrip {
  /** Null where the strip was removed. */
  readonly stripId: string | null;
  /** Filter or lamp setting, in the words of the user's enlarger; empty for a split exposure. */
  readonly setting: string;
  /** Seconds through the soft and the hard filter of a split exposure; null where it was none. */
  readonly softSeconds: number | null;
  readonly hardSeconds: number | null;
}

/** Where a paper's exposure scale comes from. */
export type PaperSource =
  /** A paper strip; null where the strip was removed. */
  | { readonly kind: 'strip'; readonly stripId: string | null }
  /** Strips of a variable-contrast paper at several settings. */
  | { readonly kind: 'strips'; readonly strips: readonly PaperStrip[] }
  /** An ISO range R: 100 times the log exposure range. */
  | { readonly kind: 'iso-range'; readonly isoRange: number }
  /** The middle of a grade's band in one of the built-in tables. */
  | { readonly kind: 'grade-table'; readonly tableId: string; readonly band: number };

/** A paper, graded or of variable contrast. */
export interface Paper {
  readonly id: string;
  readonly name: string;
  readonly source: PaperSource;
  /** Percent by which exposure is shortened for what drying darkens; null where not tested. */
  readonly dryDownPercent: number | null;
  /** Minutes under the user's safelight that a fog test found safe; null where not tested. */
  readonly safelightMinutes: number | null;
  readonly note: string;
}

/** A reading on a negative. `density` is gross: it includes base + fog. */
export interface Spot {
  readonly id: string;
  readonly name: string;
  readonly density: number;
  readonly role: 'shadow' | 'highlight' | 'other';
}

/** A negative to be printed, with the readings taken on it. */
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
  /** How this negative was developed, where that is not the strip's development. */
  readonly development?: Development | null;
  readonly note: string;
}

/** A film that went through a bath. */
export interface BathFilm {
  readonly id: string;
  readonly name: string;
  readonly day: string | null;
  readonly areaSquareCentimetres: number;
  /** Mean net density over the area, by which the silver is reckoned. */
  readonly meanNetDensity: number;
}

/** A working bath that is used again until it is spent. */
export interface WorkingBath {
  readonly id: string;
  readonly name: string;
  readonly process: string;
  /** Day on which it was mixed. */
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
  /** What the bath should reach: the grade below, the scale of the plan's paper, or the range below. */
  readonly targetKind: TargetKind;
  /** Grade that the bath should reach, of the grade table. */
  readonly targetGrade: number;
  /** Density range, diffuse, that the bath should reach; null until the user names one. */
  readonly targetRange: number | null;
  /** The family that curves are fitted with. */
  readonly curveFamily: CurveFamily;
  /** Printing density over diffuse density; 1 for diffuse light. */
  readonly callierFactor: number;
  /** Standard error of the factor, where it was measured; it goes when the factor is changed. */
  readonly callierFactorError?: number | null;
  readonly process: typeof MODELLED_PROCESS;
  readonly partsWater: number;
  readonly minutes: number;
  readonly celsius: number;
  /** Density of image stain per unit of silver density, in the paper's channel. */
  readonly stain: number;
  /** The share of the stain that the bath leaves, 0 to 1. */
  readonly stainKept: number;
  /** Density of the clear base without fog where the bath tones the fog too; null where it does not. */
  readonly clearBaseDensity: number | null;
  /** Parameters of the bath held at a value of the user's; null where trials or defaults tell. */
  readonly held: HeldParameters;
}

/** What a bath is planned for. */
export const TARGET_KINDS = ['grade', 'paper', 'range'] as const;
export type TargetKind = (typeof TARGET_KINDS)[number];

/** Parameters of dose and response that can be held; the units are those of the model. */
export interface HeldParameters {
  readonly maximumGain: number | null;
  readonly halfDose: number | null;
  readonly concentrationExponent: number | null;
  readonly temperatureCoefficient: number | null;
}

/** The usual measures of contrast that development is planned by. */
export const DEVELOPMENT_MEASURES = [
  'contrast-index',
  'gradient-1.30',
  'gradient-1.50',
  'gamma',
] as const;
/** One of those, or a chord by any end points, named as `chordName` of the core does. */
export type DevelopmentMeasure = ContrastMeasure;

/** The next development being considered. */
export interface DevelopmentPlan {
  readonly filmId: string | null;
  readonly measure: DevelopmentMeasure;
  /** Contrast aimed at, in the measure; null to take it from the paper. */
  readonly target: number | null;
  readonly celsius: number;
  /** Luminance range of the subject between textured shadow and highlight, stops. */
  readonly subjectRangeStops: number;
  /** Luminance ratio without camera flare over the ratio with it: 1 for none, 2 for one stop. */
  readonly flareFactor: number;
  /** Net density at which the shadow, zone I, is to stand: 0.10 is that of ISO speed. */
  readonly speedNetDensity: number;
  /** Factor of speed for 10 degrees where strips do not tell it; null for the built-in one. */
  readonly temperatureCoefficient: number | null;
  /** How many of the first control strips set the limits of the process. */
  readonly limitStrips: number;
  /** Development time decided on; null until then. */
  readonly chosenMinutes: number | null;
}

/** An area of a print that gets more light than the rest, or less. */
export interface PrintArea {
  readonly id: string;
  readonly name: string;
  /** Gross density of the untreated negative in the area; null where it was not read. */
  readonly density: number | null;
  readonly light: 'whole' | 'soft' | 'hard';
  /** More (+) burns in, less (-) dodges. */
  readonly stops: number;
}

/**
 * The print being considered: of the negative and on the paper of the plan. Seconds are at the
 * magnification given here.
 */
export interface Printing {
  /** Filter or lamp setting of a variable-contrast paper; null for graded paper or a split. */
  readonly setting: string | null;
  /** Side of the print's image over that of the negative's: 1 is a contact print. */
  readonly magnification: number;
  /** Exposure that a test strip found right; null until then. */
  readonly baseSeconds: number | null;
  /** Split exposure through the soft and the hard filter; null where it is none. */
  readonly softSeconds: number | null;
  readonly hardSeconds: number | null;
  /** Seconds in which soft or hard light alone prints the highlight right; null until tried. */
  readonly softAloneSeconds: number | null;
  readonly hardAloneSeconds: number | null;
  /** Areas burnt in or dodged. */
  readonly areas: readonly PrintArea[];
  /** Reflection densities wanted at the negative's shadow and highlight; null to take the usual. */
  readonly shadowPrintDensity: number | null;
  readonly highlightPrintDensity: number | null;
  /** As `flareFactor`, for the subject of the print; null to take that of the development plan. */
  readonly cameraFlareFactor: number | null;
  /** Stray light at the easel over the light that the clear film base lets through, from 0. */
  readonly enlargerFlare: number;
}

/** A print that was made. */
export interface Print {
  readonly id: string;
  readonly name: string;
  readonly day: string | null;
  readonly negativeId: string | null;
  readonly paperId: string | null;
  readonly setting: string | null;
  /** One exposure; null where it is not known, or was split. */
  readonly seconds: number | null;
  readonly softSeconds: number | null;
  readonly hardSeconds: number | null;
  /** As in `Printing`; null where it is not known. */
  readonly magnification: number | null;
  readonly note: string;
}

/** An entry of the diary. */
export interface Note {
  readonly id: string;
  readonly day: string | null;
  readonly text: string;
}

/** Everything that a notebook holds. */
export interface NotebookDocument {
  readonly title: string;
  readonly note: string;
  /** True where the readings were made up, as in the demonstration notebook. */
  readonly invented: boolean;
  readonly tablets: readonly Tablet[];
  readonly developers: readonly Developer[];
  readonly films: readonly Film[];
  readonly strips: readonly Strip[];
  readonly papers: readonly Paper[];
  readonly negatives: readonly Negative[];
  readonly baths: readonly WorkingBath[];
  readonly prints: readonly Print[];
  readonly notes: readonly Note[];
  readonly plan: Plan;
  readonly developmentPlan: DevelopmentPlan;
  readonly printing: Printing;
  /** Entries that could not be read as numbers, letter for letter, by the field they stand in. */
  readonly asTyped?: Readonly<Record<string, string>>;
}
