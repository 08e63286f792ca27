/**
 * What follows for the negative, the paper and the bath: match, prediction and plan, remembered
 * like the curves.
 */
import {
  completionCurve,
  derivedBaseFog,
  exactly,
  fitTreatment,
  matchNegative,
  nextTrial,
  paperFromGrade,
  paperFromIsoRange,
  planTreatment,
  predictTreatment,
  sensitivityOf,
  treatedCurve,
  treatmentEffect,
  type CompletionPoint,
  type CurveFamily,
  type Estimate,
  type GradeTable,
  type NegativeMatch,
  type NextTrial,
  type PrintingOptions,
  type Sensitivity,
  type TreatmentModel,
  type TreatmentPlan,
  type TreatmentPrediction,
  type TreatmentTarget,
  type Warning,
} from '@wedgebook/core';
import { gradeTables, seleniumDefaults } from '@wedgebook/data';
import {
  modelledTreatment,
  type HeldParameters,
  type ModelledTreatment,
  type Negative,
  type PaperSource,
  type Plan,
} from '@wedgebook/notebook';
import type { SheetPoint } from '@wedgebook/charts';
import { text } from '../text.ts';
import { gradeTableOf, type Derive, type StripFit } from './derive.ts';
import { heldResponse, targetOf } from './bath-order.ts';
import { memo, memoList, once } from './memo.ts';
import type { WorkDocument } from './work.ts';

/** The negative between its thinnest and densest part that must show detail. */
export interface NegativeEnds {
  readonly shadow: { readonly name: string; readonly density: number };
  readonly highlight: { readonly name: string; readonly density: number };
  readonly densityRange: number;
  /** Where base + fog comes from; the net shadow density needs it. */
  readonly baseFog: number | null;
  readonly baseFogSource: 'negative' | 'strip' | null;
  /** True where only a range is known, so that the shadow's place is assumed. */
  readonly rangeOnly: boolean;
}

/** The paper's exposure scale with what is known of it. */
export interface ChosenPaper {
  readonly label: string;
  readonly exposureScale: Estimate;
  readonly interval: readonly [number, number] | null;
  readonly origin: 'strip' | 'iso-range' | 'grade-table' | 'target';
  readonly warnings: readonly Warning[];
}

/** Everything below the curves, for one state of the notebook. */
export interface BathView {
  readonly gradeTable: GradeTable;
  readonly negative: Negative | null;
  readonly ends: NegativeEnds | null;
  /** What is missing before a match can be made, or null. */
  readonly missing: string | null;
  readonly paper: ChosenPaper | null;
  readonly match: NegativeMatch | null;
  readonly model: TreatmentModel;
  readonly prediction: TreatmentPrediction | null;
  /** What the bath is planned for; null where the plan does not say enough. */
  readonly target: TreatmentTarget | null;
  readonly plan: TreatmentPlan | null;
  readonly sensitivity: Sensitivity;
  /** The trial pieces that would tell most about the bath as set. */
  readonly nextTrial: NextTrial;
}

const ASSUMED_SHADOW = 0.1;

export class DeriveBath {
  readonly #derive: Derive;
  readonly #model = memoList(fitModel);
  readonly #prediction = memo(predict);
  readonly #plan = memo(planBackwards);
  readonly #treated = memo(
    (fit: StripFit, model: TreatmentModel, plan: Plan): readonly SheetPoint[] =>
      drawTreated(fit, model, plan),
  );
  readonly #completion = memo(completionOf);
  readonly #next = memo(trialsFor);
  readonly #view = memo(
    (document: WorkDocument, family: CurveFamily, targetGrade: number): BathView =>
      this.#compute(document, family, targetGrade),
  );

  constructor(derive: Derive) {
    this.#derive = derive;
  }

  /** Match, prediction and plan of the notebook's negative, paper and bath. */
  view(document: WorkDocument, family: CurveFamily, targetGrade: number): BathView {
    return this.#view(document, family, targetGrade);
  }

  /** The model of the bath from the treated strips that have been read. */
  model(document: WorkDocument, family: CurveFamily): TreatmentModel {
    const { strips } = document;
    const treated = strips.filter(
      (strip) =>
        strip.material === 'film' &&
        modelledTreatment(strip.treatment) !== null &&
        strip.rows.some((row) => row.densities.some((density) => density !== null)),
    );
    const inputs = treated.flatMap((strip): unknown[] => {
      const partner = this.#derive.stripOf(document, strip.treatment?.untreatedStripId ?? null);
      return [
        strip.name,
        modelledTreatment(strip.treatment),
        this.#derive.fit(document, strip, family).readings,
        partner?.id ?? '',
        partner === null ? null : this.#derive.fit(document, partner, family).readings,
      ];
    });
    return this.#model([document.plan.held, ...inputs]);
  }

  /** The curve after the bath of the plan. */
  treatedLine(fit: StripFit, model: TreatmentModel, plan: Plan): readonly SheetPoint[] {
    return this.#treated(fit, model, plan);
  }

  /** Completion against minutes at the plan's dilution and temperature, and at others. */
  completion(model: TreatmentModel, plan: Plan): CompletionCurves {
    return this.#completion(model, plan);
  }

  #compute(document: WorkDocument, family: CurveFamily, targetGrade: number): BathView {
    const { plan } = document;
    const gradeTable = gradeTableOf(document);
    const negative = document.negatives.find(({ id }) => id === plan.negativeId) ?? null;
    const { ends, missing } = this.#ends(document, negative, family);
    const paper = this.#paper(document, gradeTable, family, targetGrade);
    const model = this.model(document, family);
    const rival = gradeTables.find(
      ({ id, light }) => id !== gradeTable.id && light !== 'condenser',
    );
    const match =
      ends === null
        ? null
        : matchNegative(
            { shadowDensity: ends.shadow.density, highlightDensity: ends.highlight.density },
            {
              callierFactor: plan.callierFactor,
              callierFactorError: factorErrorOf(plan),
              stain: plan.stain,
              gradeTable,
              ...(rival === undefined || gradeTable.light === 'condenser'
                ? {}
                : { rivalTable: rival }),
              ...(paper === null ? {} : { paper: paper.exposureScale }),
            },
          );
    const target = targetOf(plan, targetGrade, gradeTable, paper);
    const prediction =
      ends === null || !(ends.densityRange > 0)
        ? null
        : this.#prediction(model, ends.densityRange, netShadow(ends), plan, gradeTable);
    // What the curve sheet does not show is computed when it is asked for.
    const backwards = once(() =>
      ends === null || !(ends.densityRange > 0) || target === null
        ? null
        : this.#plan(model, ends.densityRange, netShadow(ends), plan, gradeTable, target),
    );
    const bath = { partsWater: plan.partsWater, minutes: plan.minutes, celsius: plan.celsius };
    const sensitivity = once(() => sensitivityOf(model, bath));
    const trials = () => this.#next(model, plan.partsWater, plan.minutes, plan.celsius);
    return {
      gradeTable,
      negative,
      ends,
      missing,
      paper,
      match,
      model,
      prediction,
      target,
      get plan() {
        return backwards();
      },
      get sensitivity() {
        return sensitivity();
      },
      get nextTrial() {
        return trials();
      },
    };
  }

  #ends(
    document: WorkDocument,
    negative: Negative | null,
    family: CurveFamily,
  ): { ends: NegativeEnds | null; missing: string | null } {
    if (negative === null) return { ends: null, missing: text.match.noNegative };
    const strip = this.#derive.stripOf(document, negative.stripId);
    const fit = strip === null ? null : this.#derive.fit(document, strip, family);
    const measured = strip === null || fit === null ? null : this.#derive.film(strip, fit);
    const baseFog = negative.baseFog ?? measured?.baseFog.value ?? null;
    const baseFogSource =
      negative.baseFog !== null ? 'negative' : baseFog !== null ? 'strip' : null;
    const of = (role: 'shadow' | 'highlight') =>
      negative.spots
        .filter((spot) => spot.role === role)
        .toSorted((a, b) => (role === 'shadow' ? a.density - b.density : b.density - a.density))[0];
    const shadow = of('shadow');
    const highlight = of('highlight');
    if (shadow !== undefined && highlight !== undefined) {
      const densityRange = highlight.density - shadow.density;
      if (!(Math.abs(densityRange) > 0.001)) return { ends: null, missing: text.match.sameDensity };
      const ends = {
        shadow,
        highlight,
        densityRange,
        baseFog,
        baseFogSource,
        rangeOnly: false,
      } as const;
      return { ends, missing: densityRange > 0 ? null : text.match.turned };
    }
    const range = negative.densityRange ?? null;
    if (range === null) return { ends: null, missing: text.match.noSpots };
    // A range alone says nothing of where it lies: its foot is put at the speed point.
    const foot = (baseFog ?? 0) + ASSUMED_SHADOW;
    return {
      ends: {
        shadow: { name: text.match.assumedShadow, density: foot },
        highlight: { name: text.match.assumedHighlight, density: foot + range },
        densityRange: range,
        baseFog,
        baseFogSource,
        rangeOnly: true,
      },
      missing: null,
    };
  }

  #paper(
    document: WorkDocument,
    gradeTable: GradeTable,
    family: CurveFamily,
    targetGrade: number,
  ): ChosenPaper | null {
    const paper = document.papers.find(({ id }) => id === document.plan.paperId);
    if (paper === undefined) {
      const grade = gradeTable.bands.some((band) => band.grade === targetGrade)
        ? targetGrade
        : (gradeTable.bands[0]?.grade ?? 2);
      const { exposureScale, interval, warnings } = paperFromGrade(grade, gradeTable);
      const label = text.match.gradeLabel(grade);
      return { label, exposureScale: exactly(exposureScale), interval, origin: 'target', warnings };
    }
    const { source, name } = paper;
    if (source.kind === 'strip' || source.kind === 'strips') {
      const strip = this.#derive.stripOf(document, paperStripId(source, document.printing.setting));
      if (strip === null) return null;
      const fit = this.#derive.fit(document, strip, family);
      const measures = this.#derive.paper(strip, fit, gradeTable);
      const exposureScale = measures?.exposureScale ?? null;
      if (measures === null || exposureScale === null) return null;
      const { warnings } = measures;
      return { label: name, exposureScale, interval: null, origin: 'strip', warnings };
    }
    const table = gradeTables.find(
      ({ id }) => source.kind === 'grade-table' && id === source.tableId,
    );
    const scale =
      source.kind === 'iso-range'
        ? paperFromIsoRange(source.isoRange)
        : paperFromGrade(source.band, table ?? gradeTable);
    const { exposureScale, interval, warnings } = scale;
    const origin = source.kind;
    return { label: name, exposureScale: exactly(exposureScale), interval, origin, warnings };
  }
}

/** Id of the strip of a paper; of a variable-contrast one, that of the setting in use, else the first. */
export function paperStripId(
  source: Extract<PaperSource, { kind: 'strip' | 'strips' }>,
  setting: string | null,
): string | null {
  if (source.kind === 'strip') return source.stripId;
  const used = source.strips.find((one) => one.setting === setting) ?? source.strips[0];
  return used?.stripId ?? null;
}

/** Net density of the shadow, where base + fog is known. */
export function netShadow({ shadow, baseFog, rangeOnly }: NegativeEnds): number | undefined {
  if (rangeOnly || baseFog === null) return undefined;
  return Math.max(0, shadow.density - baseFog);
}

function fitModel(inputs: readonly unknown[]): TreatmentModel {
  const strips = [];
  for (let i = 1; i < inputs.length; i += 5) {
    const [name, bath, treated, partnerId, untreated] = inputs.slice(i, i + 5) as [
      string,
      ModelledTreatment,
      StripFit['readings'],
      string,
      StripFit['readings'] | null,
    ];
    strips.push({ strip: name, bath, treated, untreated, untreatedStrip: partnerId });
  }
  const held = heldResponse(inputs[0] as HeldParameters);
  return fitTreatment(strips, seleniumDefaults, { held });
}

function negativeOf(densityRange: number, shadowNetDensity: number | undefined) {
  return { densityRange, ...(shadowNetDensity === undefined ? {} : { shadowNetDensity }) };
}

function predict(
  model: TreatmentModel,
  densityRange: number,
  shadowNetDensity: number | undefined,
  plan: Plan,
  gradeTable: GradeTable,
): TreatmentPrediction {
  const { partsWater, minutes, celsius } = plan;
  return predictTreatment(
    model,
    negativeOf(densityRange, shadowNetDensity),
    { partsWater, minutes, celsius },
    printingOptions(plan, gradeTable),
  );
}

function planBackwards(
  model: TreatmentModel,
  densityRange: number,
  shadowNetDensity: number | undefined,
  plan: Plan,
  gradeTable: GradeTable,
  target: TreatmentTarget,
): TreatmentPlan {
  const { partsWater, celsius } = plan;
  return planTreatment(
    model,
    negativeOf(densityRange, shadowNetDensity),
    target,
    { partsWater, celsius },
    printingOptions(plan, gradeTable),
  );
}

/** How the plan's enlarger sees the negative. */
export function printingOptions(plan: Plan, gradeTable: GradeTable): PrintingOptions {
  const { callierFactor, stain, stainKept } = plan;
  return { gradeTable, callierFactor, callierFactorError: factorErrorOf(plan), stain, stainKept };
}

/** Standard error of the plan's Callier factor; null where it was not measured. */
export function factorErrorOf({ callierFactorError }: Plan): number | null {
  return callierFactorError ?? null;
}

function drawTreated(fit: StripFit, model: TreatmentModel, plan: Plan): readonly SheetPoint[] {
  if (fit.curve === null) return [];
  const { partsWater, minutes, celsius, stain, stainKept } = plan;
  const effect = treatmentEffect(model, { partsWater, minutes, celsius }, { stain, stainKept });
  const [from, to] = fit.curve.logExposureRange;
  const exposures = Array.from({ length: 121 }, (_, i) => from + ((to - from) * i) / 120);
  const { clearBaseDensity: clear } = plan;
  const tonesFog = clear !== null && clear >= 0 && clear <= derivedBaseFog(fit.curve).value;
  return treatedCurve(fit.curve, effect, exposures, tonesFog ? { clearBaseDensity: clear } : {});
}

/** Trials judged by the bath as set; by the whole of its effect where no time is set. */
function trialsFor(
  model: TreatmentModel,
  partsWater: number,
  minutes: number,
  celsius: number,
): NextTrial {
  const whole = model.doseResponse.completion95Minutes.value;
  return nextTrial(model, seleniumDefaults, {
    partsWater,
    minutes: minutes > 0 ? minutes : whole,
    celsius,
  });
}

/** Completion curves for the chart. */
export interface CompletionCurves {
  readonly longestMinutes: number;
  readonly planned: readonly CompletionPoint[];
  readonly others: readonly {
    readonly partsWater: number;
    readonly points: readonly CompletionPoint[];
  }[];
}

const DILUTIONS = [1, 2, 3, 9] as const;

function completionOf(model: TreatmentModel, plan: Plan): CompletionCurves {
  const { partsWater, celsius, minutes } = plan;
  const longestMinutes = Math.max(12, Math.ceil(minutes * 1.25));
  const times = Array.from({ length: 61 }, (_, i) => (longestMinutes * i) / 60);
  const others = DILUTIONS.filter((water) => water !== partsWater).map((water) => ({
    partsWater: water,
    points: completionCurve(model, { partsWater: water, celsius }, times),
  }));
  return {
    longestMinutes,
    planned: completionCurve(model, { partsWater, celsius }, times),
    others,
  };
}
