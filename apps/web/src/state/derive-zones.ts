/** What each zone becomes at each development of the plan, on the chosen paper. */
import {
  flareOfFactor,
  generatedPaper,
  speedPointOf,
  surfaceCurve,
  zoneLadder,
  type CharacteristicCurve,
  type DevelopmentSurface,
  type PlannedDevelopment,
  type PrintPaper,
  type ZoneRung,
} from '@wedgebook/core';
import { gradeTableOf, type Derive } from './derive.ts';
import { paperStripId, type ChosenPaper, type DeriveBath } from './derive-bath.ts';
import { memo } from './memo.ts';
import type { WorkDocument } from './work.ts';

/** One stop of exposure. */
const LOG_STOP = Math.log10(2);
/** Density of unexposed paper where no strip tells it. */
const USUAL_WHITE = 0.06;

/** The paper that zones are printed on. */
export interface LadderPaper {
  readonly paper: PrintPaper;
  readonly whiteDensity: number;
  /** `strip`: the user's own curve; `generated`: a curve made for a scale. */
  readonly origin: 'strip' | 'generated';
  readonly label: string;
}

export interface LadderSettings {
  readonly subjectRangeStops: number;
  readonly flareFactor: number;
  readonly callierFactor: number;
  /** Standard error of the factor; null where it was not measured. */
  readonly callierFactorError: number | null;
  readonly speedNetDensity: number;
  readonly celsius: number;
}

/** A development with its rungs. */
export interface LadderOf {
  readonly row: PlannedDevelopment;
  readonly minutes: number;
  readonly rungs: readonly ZoneRung[];
  /** Zone that prints just darker than white: the highlight of the subject that the plan is for. */
  readonly whiteZone: number;
}

/** Selector of the paper that the ladder prints on, remembered while paper and strip stay the same. */
export function ladderPaperOf(): (
  document: WorkDocument,
  derive: Derive,
  bath: DeriveBath,
) => LadderPaper | null {
  const remembered = memo(ladderPaper);
  return (document, derive, bath) => {
    const { plan, papers, printing } = document;
    const { paper } = bath.view(document, plan.curveFamily, plan.targetGrade);
    const source = papers.find(({ id }) => id === plan.paperId)?.source;
    const ofStrips = source?.kind === 'strip' || source?.kind === 'strips' ? source : null;
    const strip = derive.stripOf(document, ofStrips && paperStripId(ofStrips, printing.setting));
    if (strip === null) return remembered(paper, null, null);
    const fit = derive.fit(document, strip, plan.curveFamily);
    const measures = derive.paper(strip, fit, gradeTableOf(document));
    return remembered(paper, fit.curve, measures?.densityMin.value ?? null);
  };
}

/** The own paper's curve where there is one, else the generated paper of its scale. */
function ladderPaper(
  paper: ChosenPaper | null,
  curve: CharacteristicCurve | null,
  whiteDensity: number | null,
): LadderPaper | null {
  const exposureScale = paper?.exposureScale.value ?? 0;
  if (paper === null || !(exposureScale > 0 && exposureScale <= 6)) return null;
  const { label } = paper;
  return curve === null || whiteDensity === null || paper.origin !== 'strip'
    ? {
        paper: generatedPaper(exposureScale),
        whiteDensity: USUAL_WHITE,
        origin: 'generated',
        label,
      }
    : {
        paper: { kind: 'strip', exposureScale, curve },
        whiteDensity,
        origin: 'strip',
        label,
      };
}

/**
 * Ladders of the developments that can be reached and have a curve.
 *
 * @param plan - rows of the plan
 * @param surface - of the film's strips
 * @param paper - null for the negative alone
 * @param settings - subject, flare, light, density of zone I, temperature
 */
export function laddersOf(
  plan: readonly PlannedDevelopment[],
  surface: DevelopmentSurface,
  paper: LadderPaper | null,
  settings: LadderSettings,
): LadderOf[] {
  const { subjectRangeStops, flareFactor, speedNetDensity, celsius } = settings;
  const { callierFactor, callierFactorError } = settings;
  return plan.flatMap((row): LadderOf[] => {
    const minutes = row.minutes?.value;
    if (minutes === undefined) return [];
    const cut = surfaceCurve(surface, minutes, celsius);
    const zoneOne = cut && speedPointOf(cut.curve, speedNetDensity);
    if (cut === null || zoneOne === null) return [];
    const range = subjectRangeStops - row.change;
    const sceneRatio = 2 ** range;
    // The subject's brightest textured part lies its range above zone I, and flare is a part of it.
    const brightest = 10 ** (zoneOne.value + LOG_STOP * range);
    const flareExposure =
      flareFactor < sceneRatio ? brightest * flareOfFactor(sceneRatio, flareFactor) : 0;
    const rungs = zoneLadder(cut.curve, {
      zoneOneLogExposure: zoneOne.value,
      flareExposure,
      paper: paper?.paper ?? null,
      paperWhiteDensity: paper?.whiteDensity ?? USUAL_WHITE,
      callierFactor,
      callierFactorError,
      whiteZone: 1 + range,
    });
    return [{ row, minutes, rungs, whiteZone: 1 + range }];
  });
}
