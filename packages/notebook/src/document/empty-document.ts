/** A notebook before the first entry. */
import { ansiGradeTable } from '@wedgebook/data';
import {
  MODELLED_PROCESS,
  type DevelopmentPlan,
  type NotebookDocument,
  type Plan,
  type Printing,
} from './document.ts';

/**
 * The bath that a new notebook considers: 1+1, 6.5 minutes, 20 degrees Celsius, a common working
 * bath; diffuse light, no stain.
 */
export const DEFAULT_PLAN: Plan = {
  negativeId: null,
  paperId: null,
  gradeTableId: ansiGradeTable.id,
  targetKind: 'grade',
  targetGrade: 2,
  targetRange: null,
  curveFamily: 'toe-shoulder',
  callierFactor: 1,
  process: MODELLED_PROCESS,
  partsWater: 1,
  minutes: 6.5,
  celsius: 20,
  stain: 0,
  stainKept: 1,
  clearBaseDensity: null,
  held: {
    maximumGain: null,
    halfDose: null,
    concentrationExponent: null,
    temperatureCoefficient: null,
  },
};

/**
 * Development that a new notebook considers: 20 degrees Celsius, a textured range of seven stops
 * (published zone practice) and one stop of camera flare (published), both as in data/development.
 */
export const DEFAULT_DEVELOPMENT_PLAN: DevelopmentPlan = {
  filmId: null,
  measure: 'contrast-index',
  target: null,
  celsius: 20,
  subjectRangeStops: 7,
  flareFactor: 2,
  speedNetDensity: 0.1,
  temperatureCoefficient: null,
  limitStrips: 5,
  chosenMinutes: null,
};

/** The print that a new notebook considers: twice the negative's size, nothing tried yet. */
export const DEFAULT_PRINTING: Printing = {
  setting: null,
  magnification: 2,
  baseSeconds: null,
  softSeconds: null,
  hardSeconds: null,
  softAloneSeconds: null,
  hardAloneSeconds: null,
  areas: [],
  shadowPrintDensity: null,
  highlightPrintDensity: null,
  cameraFlareFactor: null,
  enlargerFlare: 0,
};

/** @returns a notebook with nothing in it and the default plan */
export function emptyDocument(title = 'Notebook'): NotebookDocument {
  return {
    title,
    note: '',
    invented: false,
    tablets: [],
    developers: [],
    films: [],
    strips: [],
    papers: [],
    negatives: [],
    baths: [],
    prints: [],
    notes: [],
    plan: DEFAULT_PLAN,
    developmentPlan: DEFAULT_DEVELOPMENT_PLAN,
    printing: DEFAULT_PRINTING,
  };
}
