/**
 * The built-in data of Wedgebook. Every entry carries its provenance; nothing here is a result of
 * the user's readings, and the user's own readings replace any of it.
 */
import type {
  GradeTable,
  ProcessDefaults,
  Provenance,
  SeleniumDefaults,
  SplitLights,
  WayId,
} from '@wedgebook/core';
import developmentJson from './development/defaults.json' with { type: 'json' };
import demoJson from './demo/notebook.json' with { type: 'json' };
import cautionsJson from './treatments/cautions.json' with { type: 'json' };
import processesJson from './treatments/processes.json' with { type: 'json' };
import filterSettingsJson from './papers/filter-settings.json' with { type: 'json' };
import printingJson from './papers/printing-defaults.json' with { type: 'json' };
import safelightJson from './papers/safelight-steps.json' with { type: 'json' };
import gradeTablesJson from './papers/grade-tables.json' with { type: 'json' };
import lightsJson from './papers/lights.json' with { type: 'json' };
import nominalJson from './tablets/nominal.json' with { type: 'json' };
import referencesJson from './references.json' with { type: 'json' };
import seleniumJson from './treatments/selenium.json' with { type: 'json' };
import stepsJson from './treatments/selenium-steps.json' with { type: 'json' };
import seriesJson from './standards/series.json' with { type: 'json' };
import variableContrastJson from './papers/variable-contrast.json' with { type: 'json' };
import waysJson from './treatments/ways.json' with { type: 'json' };

/** A step tablet by its nominal increment. */
export interface NominalTablet {
  readonly id: string;
  readonly name: string;
  readonly steps: number;
  readonly increment: number;
  readonly firstDensity: number;
  readonly provenance: Provenance;
}

/** A caution that stands where the step is shown. */
export interface Caution {
  readonly id: string;
  /** The process it belongs to, or `any` wet work. */
  readonly applies: string;
  readonly step: 'before' | 'during' | 'after';
  /** `danger` to people, or `loss` of the negative. */
  readonly severity: 'danger' | 'loss';
  /** What can hurt in a few words, for tables; null where nothing names it. */
  readonly short: string | null;
  readonly text: string;
  readonly provenance: Provenance;
}

/** What a way out costs, besides its figures. */
export interface WayNote {
  readonly id: WayId;
  /** Its process, for `cautionsFor`; null where no chemistry is needed. */
  readonly process: 'selenium' | 'chromium' | 'reducer' | null;
  /** False where the negative as it is cannot be had back. */
  readonly reversible: boolean;
  /** What becomes of image stain. */
  readonly stain: 'kept' | 'may-go' | 'lost';
  /** How the image keeps, against an untreated one. */
  readonly keeping: 'same' | 'better' | 'unknown';
  /** Ids of the cautions that name what can hurt, the gravest first; empty without chemistry. */
  readonly hazards: readonly string[];
  /** What is lost. */
  readonly lost: string;
  readonly provenance: Provenance;
}

/** A step of a treatment, with the caution that belongs to it. */
export interface TreatmentStep {
  readonly id: string;
  readonly when: 'before' | 'during' | 'after';
  readonly text: string;
  /** Id of a caution, or null. */
  readonly caution: string | null;
  readonly provenance: Provenance;
}

/** A kind of enlarger light with its Callier factor. */
export interface EnlargerLight {
  readonly id: 'diffuse' | 'condenser';
  readonly name: string;
  readonly callierFactor: {
    readonly value: number;
    readonly range: readonly number[];
    readonly unit: string;
  };
  readonly provenance: Provenance;
}

/** An entry of the list of references. */
export interface Reference {
  readonly authors: string;
  readonly title: string;
  readonly container?: string;
  readonly year: number;
  readonly known: Provenance['known'];
  readonly note?: string;
}

/** ISO range of one variable-contrast paper by filter setting. */
export interface FilterSettings {
  readonly name: string;
  readonly settings: readonly { readonly setting: string; readonly isoRange: number }[];
  readonly provenance: Provenance;
}

/** A built-in number with the range it may well have. */
export interface BuiltInNumber {
  readonly value: number;
  readonly range: readonly number[];
  readonly unit: string;
  readonly provenance: Provenance;
}

/** Built-in numbers of printing. */
export interface PrintingDefaults {
  readonly dryDownPercent: BuiltInNumber;
  readonly safelightPatchNetDensity: BuiltInNumber;
}

/** A usual aim for the contrast of a negative. */
export interface ContrastAim {
  readonly measure: 'contrast-index' | 'gradient-1.30' | 'gradient-1.50' | 'gamma';
  readonly value: number;
  readonly range: readonly number[];
  readonly provenance: Provenance;
}

/** Built-in numbers of development. */
export interface DevelopmentDefaults {
  readonly temperatureCoefficient: BuiltInNumber;
  readonly texturalStops: BuiltInNumber;
  readonly subjectLogRange: BuiltInNumber;
  readonly flare: BuiltInNumber;
  readonly usablePart: BuiltInNumber;
  readonly shortestMinutes: BuiltInNumber;
  readonly aims: readonly ContrastAim[];
}

/** Rounded series of the standards. */
export interface StandardSeries {
  readonly isoFilmSpeed: {
    readonly name: string;
    readonly pairs: readonly (readonly number[])[];
    readonly extrapolatedPairs: readonly (readonly number[])[];
    readonly provenance: Provenance;
  };
  readonly isoPaperSpeed: {
    readonly name: string;
    readonly values: readonly number[];
    readonly provenance: Provenance;
  };
}

/** Trade sizes of step tablets. */
export const nominalTablets = nominalJson as readonly NominalTablet[];

/** Tables of paper grades, the default one first. */
export const gradeTables = gradeTablesJson as readonly GradeTable[];

/** Grades by log exposure range, ANSI PH2.2-1966: the default. */
export const ansiGradeTable = gradeTableById('ansi-1966');

/** Grades by density range for diffuse light, a laboratory sheet. */
export const laboratoryGradeTable = gradeTableById('laboratory-diffuse');

/** Kinds of enlarger light with their Callier factors. */
export const enlargerLights = lightsJson as readonly EnlargerLight[];

/** ISO ranges of one variable-contrast paper. */
export const filterSettings = filterSettingsJson as FilterSettings;

/** The built-in variable-contrast paper, and what its filters cost in light. */
export const builtInSplit: SplitLights & { readonly provenance: Provenance } = {
  paper: variableContrastJson,
  origin: 'built-in',
  softFactor: variableContrastJson.filterFactors.soft,
  hardFactor: variableContrastJson.filterFactors.hard,
  provenance: variableContrastJson.provenance as Provenance,
};

/** How the filter factors of the built-in paper are known. */
export const filterFactorsProvenance = variableContrastJson.filterFactors.provenance as Provenance;

/** Built-in numbers of printing: dry-down, the patch of the safelight test. */
export const printingDefaults = printingJson as PrintingDefaults;

/** Steps of the safelight test, in their order. */
export const safelightSteps = safelightJson as readonly TreatmentStep[];

/** Built-in parameters of the selenium bath. */
export const seleniumDefaults = seleniumJson as unknown as SeleniumDefaults;

/** Built-in numbers of chromium intensification and of reducers. */
export const processDefaults = processesJson as unknown as ProcessDefaults;

/** Steps of the selenium bath, in their order. */
export const seleniumSteps = stepsJson as readonly TreatmentStep[];

/** What each way out costs. */
export const wayNotes = waysJson as readonly WayNote[];

/** Built-in numbers of development: temperature, aims, limits. */
export const developmentDefaults = developmentJson as DevelopmentDefaults;

/** Every caution; show those of the process and those of `any` wet work together. */
export const cautions = cautionsJson as readonly Caution[];

/** Series of rounded values from the standards. */
export const standardSeries = seriesJson as StandardSeries;

/** The list of references by key. */
export const references = referencesJson as Readonly<Record<string, Reference>>;

/**
 * The cautions to show beside a process, dangers to people first.
 *
 * @param processes - `selenium`, `chromium`, `reducer`, alone or together
 * @returns their own cautions and those of all wet work
 */
export function cautionsFor(...processes: readonly string[]): Caution[] {
  const order = { danger: 0, loss: 1 } as const;
  return cautions
    .filter(({ applies }) => processes.includes(applies) || applies === 'any')
    .sort((a, b) => order[a.severity] - order[b.severity]);
}

/**
 * A grade table by its id.
 *
 * @param id - `ansi-1966`, `laboratory-diffuse` or `memory-condenser`
 * @throws RangeError if there is no such table
 */
export function gradeTableById(id: string): GradeTable {
  const table = gradeTables.find((candidate) => candidate.id === id);
  if (table === undefined) throw new RangeError(`no grade table named ${id}`);
  return table;
}

/**
 * The demonstration notebook as it is saved, envelope and all; every reading in it is invented.
 * Open it as any saved notebook, with `openNotebook`.
 */
export const demoNotebook: unknown = demoJson;
