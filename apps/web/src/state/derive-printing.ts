/**
 * The print of the negative, before and after the bath: the paper at its setting, the setting that
 * two wanted tones call for, exposures against one that a test strip found right.
 *
 * The user's one exposure is the base: of the untreated negative, on the paper in use, with the
 * highlight as wanted. Other prints are counted from it, as far as the speeds are known.
 */
import {
  LOG_STOP,
  exactly,
  generatedPaper,
  lightnessFromDensity,
  matchTones,
  negativePrinter,
  paperAtSetting,
  paperMap,
  paperMapFromGrades,
  paperResponse,
  printLogExposureFor,
  sameGrade,
  SHADOW_FRACTION,
  secondsFromLog,
  settingPosition,
  THRESHOLD_NET_DENSITY,
  treatmentEffect,
  USUAL_PAPER_WHITE,
  type Bounded,
  type Estimate,
  type MeasuredPaper,
  type NegativePrinting,
  type PaperMap,
  type PrintPaper,
  type SameGrade,
  type ToneMatch,
  type TreatmentEffect,
  type Warning,
  type WantedTones,
} from '@wedgebook/core';
import type { Paper, Plan, Printing } from '@wedgebook/notebook';
import { factorErrorOf, type BathView } from './derive-bath.ts';
import type { Derive } from './derive.ts';
import type { WorkDocument } from './work.ts';

/** How a negative is printed, but for the bath and the exposure. */
type PrintingLight = Omit<NegativePrinting, 'effect' | 'printLogExposure'>;

/** The paper at the setting in use. */
interface PaperInUse {
  readonly label: string;
  /** Its place on the map; null where it has none. */
  readonly position: number | null;
  readonly paper: PrintPaper;
  readonly white: number;
  readonly greatest: number;
  /** Whether the speeds of its settings are known, by strips of its own. */
  readonly ownStrips: boolean;
  /** What its errors come from; null for a paper that was not measured. */
  readonly measured: MeasuredPaper | null;
}

interface PrintTone {
  readonly printDensity: number;
  readonly lightness: number;
}

/** One of the four prints: before or after the bath, on the paper in use or as called for. */
export interface PrintRow {
  readonly treated: boolean;
  readonly calledFor: boolean;
  readonly setting: string;
  readonly shadow: PrintTone;
  readonly highlight: PrintTone;
  /** More exposure than the base, stops; null where the settings' speeds are not known. */
  readonly stops: Estimate | null;
  readonly seconds: Bounded | null;
}

export interface PrintingView {
  readonly inUse: PaperInUse;
  readonly map: PaperMap;
  /** Print densities wanted. */
  readonly wanted: { readonly shadow: number; readonly highlight: number };
  /** What is wanted where the user says nothing: the ends of the paper's scale. */
  readonly usual: { readonly shadow: number; readonly highlight: number };
  readonly light: PrintingLight;
  /** The negative as it is: no bath, its stain whole. */
  readonly untreated: TreatmentEffect;
  readonly treated: TreatmentEffect;
  /** Gross densities of the spots on the untreated negative. */
  readonly spots: { readonly shadow: number; readonly highlight: number };
  /** Standard error of the Callier factor; null where it was not measured. */
  readonly callierFactorError: number | null;
  readonly tones: { readonly before: WantedTones; readonly after: WantedTones };
  readonly before: ToneMatch;
  readonly after: ToneMatch;
  readonly same: SameGrade;
  readonly rows: readonly PrintRow[];
  readonly warnings: readonly Warning[];
}

/** Why there is no print to reckon. */
export interface NoPrinting {
  readonly missing: 'negative' | 'paper';
}

/** Densities at which a print is looked at between shadow and highlight. */
const LOOKS = 25;

/**
 * @param document - for the paper, the plan and the print being considered
 * @param bath - negative, model and prediction
 * @param derive - the curves
 */
export function printingView(
  document: WorkDocument,
  bath: BathView,
  derive: Derive,
): PrintingView | NoPrinting {
  const { ends } = bath;
  if (ends === null || !(ends.densityRange > 0)) return { missing: 'negative' };
  const found = paperInUse(document, bath, derive);
  if (found === null) return { missing: 'paper' };
  const { inUse, map } = found;
  const { plan, printing } = document;
  const usual = {
    shadow: inUse.white + SHADOW_FRACTION * inUse.greatest,
    highlight: inUse.white + THRESHOLD_NET_DENSITY,
  };
  const wanted = {
    shadow: printing.shadowPrintDensity ?? usual.shadow,
    highlight: printing.highlightPrintDensity ?? usual.highlight,
  };
  const light: PrintingLight = {
    baseFog: ends.baseFog ?? 0,
    callierFactor: plan.callierFactor,
    enlargerFlare: printing.enlargerFlare,
    paper: inUse.paper,
    paperWhiteDensity: inUse.white,
  };
  const [untreated, treated] = effectsOf(bath, plan);
  const spots = { shadow: ends.shadow.density, highlight: ends.highlight.density };
  const errorOf = (when: 'before' | 'after') =>
    bath.prediction?.[when].printingRange.standardError ?? null;
  const tones = {
    before: wantedTones(light, untreated, spots, wanted, errorOf('before')),
    after: wantedTones(light, treated, spots, wanted, errorOf('after')),
  };
  const options = { paperWhiteDensity: inUse.white };
  const before = matchTones(map, tones.before, options);
  const after = matchTones(map, tones.after, options);
  const aim = { negativeDensity: spots.highlight, printDensity: wanted.highlight };
  const densities = Array.from(
    { length: LOOKS },
    (_, i) => spots.shadow + (i / (LOOKS - 1)) * (spots.highlight - spots.shadow),
  );
  const same = sameGrade(light, treated, aim, densities);
  const view = {
    inUse,
    map,
    wanted,
    usual,
    light,
    callierFactorError: factorErrorOf(plan),
    untreated,
    treated,
    spots,
    tones,
    before,
    after,
    same,
  };
  const warnings = [...map.warnings, ...treated.warnings];
  return { ...view, rows: rowsOf(view, printing), warnings };
}

/** The bath of no minutes, and the bath of the plan. */
function effectsOf({ model }: BathView, plan: Plan): [TreatmentEffect, TreatmentEffect] {
  const { partsWater, minutes, celsius, stain, stainKept } = plan;
  const effect = (time: number) =>
    treatmentEffect(model, { partsWater, minutes: time, celsius }, { stain, stainKept });
  return [effect(0), effect(minutes)];
}

/**
 * The spots as the paper sees them, stray light included. Both move with the gain and the Callier
 * factor together: the error of their range is put on the highlight alone.
 */
function wantedTones(
  light: PrintingLight,
  effect: TreatmentEffect,
  spots: { readonly shadow: number; readonly highlight: number },
  wanted: { readonly shadow: number; readonly highlight: number },
  rangeError: number | null,
): WantedTones {
  const print = negativePrinter({ ...light, effect, printLogExposure: 0 });
  const seen = (density: number) => -print(density).paperLogExposure;
  return {
    shadow: { negativeDensity: exactly(seen(spots.shadow)), printDensity: wanted.shadow },
    highlight: {
      negativeDensity: { value: seen(spots.highlight), standardError: rangeError },
      printDensity: wanted.highlight,
    },
  };
}

function rowsOf(view: Omit<PrintingView, 'rows' | 'warnings'>, printing: Printing): PrintRow[] {
  const { inUse, light, untreated, treated, same, before, after } = view;
  const base = exposureOf(view, light, untreated);
  if (base === null) return [];
  const change = same.status === 'ok' ? same.exposureChangeStops : null;
  const withSeconds = (row: Omit<PrintRow, 'seconds'>): PrintRow => ({
    ...row,
    seconds: secondsOf(printing.baseSeconds, row.stops),
  });
  const here = (effect: TreatmentEffect, stops: Estimate | null): PrintRow | null => {
    const logExposure = exposureOf(view, light, effect);
    return logExposure === null
      ? null
      : withSeconds({
          treated: effect === treated,
          calledFor: false,
          setting: inUse.label,
          ...tonesAt(view, light, effect, logExposure),
          stops,
        });
  };
  const there = (match: ToneMatch, effect: TreatmentEffect): PrintRow | null => {
    if (match.status === 'refused') return null;
    const { position, setting } = match.nearest;
    const at = paperAtSetting(view.map, position);
    const own = { ...light, paper: at.paper };
    const logExposure = exposureOf(view, own, effect);
    if (logExposure === null) return null;
    const from = inUse.ownStrips && inUse.position !== null;
    const threshold = from ? paperAtSetting(view.map, inUse.position).threshold : null;
    const stops =
      position === inUse.position
        ? effect === treated
          ? change
          : exactly(0)
        : threshold === null || at.threshold === null
          ? null
          : {
              value: (logExposure + at.threshold.value - base - threshold.value) / LOG_STOP,
              standardError: stopsError(match.nearest.logExposure),
            };
    return withSeconds({
      treated: effect === treated,
      calledFor: true,
      setting,
      ...tonesAt(view, own, effect, logExposure),
      stops,
    });
  };
  return [
    here(untreated, exactly(0)),
    here(treated, change),
    there(before, untreated),
    there(after, treated),
  ].filter((row) => row !== null);
}

function stopsError(logExposure: Estimate | null): number | null {
  const error = logExposure?.standardError ?? null;
  return error === null ? null : error / LOG_STOP;
}

/** Exposure above the threshold that prints the highlight as wanted. */
function exposureOf(
  { spots, wanted }: Pick<PrintingView, 'spots' | 'wanted'>,
  light: PrintingLight,
  effect: TreatmentEffect,
): number | null {
  const reach = light.paperWhiteDensity + paperResponse(light.paper).netMaximum;
  if (!(wanted.highlight > light.paperWhiteDensity && wanted.highlight < reach)) return null;
  const aim = { negativeDensity: spots.highlight, printDensity: wanted.highlight };
  return printLogExposureFor({ ...light, effect }, aim);
}

function tonesAt(
  { spots }: Pick<PrintingView, 'spots'>,
  light: PrintingLight,
  effect: TreatmentEffect,
  printLogExposure: number,
): { shadow: PrintTone; highlight: PrintTone } {
  const print = negativePrinter({ ...light, effect, printLogExposure });
  const tone = (density: number): PrintTone => {
    const { printDensity } = print(density);
    return { printDensity, lightness: lightnessFromDensity(printDensity) };
  };
  return { shadow: tone(spots.shadow), highlight: tone(spots.highlight) };
}

function secondsOf(base: number | null, stops: Estimate | null): Bounded | null {
  if (base === null || stops === null || !(base > 0)) return null;
  const { value, standardError } = stops;
  return secondsFromLog({
    value: Math.log10(base) + LOG_STOP * value,
    standardError: standardError === null ? null : LOG_STOP * standardError,
  });
}

/** The paper at its setting, and the map of what else could be chosen. */
function paperInUse(
  document: WorkDocument,
  bath: BathView,
  derive: Derive,
): { inUse: PaperInUse; map: PaperMap } | null {
  const { plan, printing } = document;
  const paper = document.papers.find(({ id }) => id === plan.paperId) ?? null;
  const grades = paperMapFromGrades(bath.gradeTable);
  if (paper !== null && (paper.source.kind === 'strip' || paper.source.kind === 'strips')) {
    const own = ownMap(paper, document, derive);
    if (own === null) return null;
    const wanted = printing.setting === null ? null : positionOf(own, printing.setting);
    const place = wanted ?? own.settings[Math.floor((own.settings.length - 1) / 2)]?.position;
    if (place === undefined) return null;
    const at = paperAtSetting(own, place);
    const several = paper.source.kind === 'strips';
    return {
      inUse: used(several ? `${paper.name}, ${at.setting}` : paper.name, place, at.paper, {
        kind: 'setting',
        map: own,
        position: place,
      }),
      map: several ? own : grades,
    };
  }
  const { paper: scale } = bath;
  if (scale === null || !(scale.exposureScale.value > 0)) return null;
  const band = paper === null ? plan.targetGrade : gradeBandOf(paper);
  const position = grades.settings.some((entry) => entry.position === band) ? band : null;
  const generated = generatedPaper(scale.exposureScale.value);
  return { inUse: used(scale.label, position, generated, null), map: grades };
}

function used(
  label: string,
  position: number | null,
  paper: PrintPaper,
  measured: MeasuredPaper | null,
): PaperInUse {
  const { whiteDensity, netMaximum } = paperResponse(paper);
  const white = whiteDensity ?? USUAL_PAPER_WHITE;
  return {
    label,
    position,
    paper,
    white,
    greatest: netMaximum,
    ownStrips: measured !== null,
    measured,
  };
}

function gradeBandOf({ source }: Paper): number | null {
  return source.kind === 'grade-table' ? source.band : null;
}

/** The map from a paper's own strips, or null where none of them has a scale. */
function ownMap(paper: Paper, document: WorkDocument, derive: Derive): PaperMap | null {
  const { source } = paper;
  const entries =
    source.kind === 'strips'
      ? source.strips
      : source.kind === 'strip'
        ? [{ stripId: source.stripId, setting: paper.name }]
        : [];
  const strips = entries.flatMap(({ stripId, setting }) => {
    const strip = derive.stripOf(document, stripId);
    const fit = strip === null ? null : derive.fit(document, strip, document.plan.curveFamily);
    const curve = fit?.curve ?? null;
    return curve === null ? [] : [{ setting, curve }];
  });
  if (strips.length === 0) return null;
  const result = paperMap(strips);
  return result.status === 'ok' ? result.map : null;
}

function positionOf(map: PaperMap, setting: string): number | null {
  const named = map.settings.find((entry) => entry.setting === setting);
  if (named !== undefined) return named.position;
  const number = map.numbered ? settingPosition(setting) : null;
  const [first, last] = [map.settings[0], map.settings.at(-1)];
  if (number === null || first === undefined || last === undefined) return null;
  return number >= first.position && number <= last.position ? number : null;
}
