/**
 * Split exposure of the negative on variable-contrast paper: from the user's own strips of soft and
 * hard light, or from the built-in layers and two times that the user tried.
 *
 *   own strips     exposures counted in seconds of their filter at the enlarger as it stood
 *   built-in       t_s = T_s 10^(x_s - x_s alone), T_s the time in which soft light alone prints the
 *                  highlight right; the same for hard light
 */
import {
  exactly,
  fitVariableContrast,
  leaveOneOut,
  secondsFromLog,
  softLogExposureFor,
  splitForPrint,
  USUAL_PAPER_WHITE,
  SHADOW_FRACTION,
  THRESHOLD_NET_DENSITY,
  type Bounded,
  type LeftOutError,
  type SplitForPrint,
  type LightExposures,
  type VariableContrastFit,
  type VariableContrastPaper,
  type WantedTones,
} from '@wedgebook/core';
import { builtInSplit } from '@wedgebook/data';
import type { Paper, Printing } from '@wedgebook/notebook';
import type { Derive } from './derive.ts';
import type { PrintingView } from './derive-printing.ts';
import { memoList } from './memo.ts';
import { litStrips, type LitStrip } from './own-split.ts';
import type { WorkDocument } from './work.ts';

export interface SplitView {
  readonly layers: VariableContrastPaper;
  readonly fit: VariableContrastFit;
  /** Whether the paper was fitted to strips of the user's own. */
  readonly own: boolean;
  /** How well every strip is foretold by the others; empty where too few. */
  readonly leftOut: readonly LeftOutError[];
  /** What is wanted where the user says nothing. */
  readonly wanted: { readonly shadow: number; readonly highlight: number };
  readonly before: SplitForPrint;
  readonly after: SplitForPrint;
  /** Seconds of each light; null where no time was tried. */
  readonly seconds: (split: SplitForPrint) => SplitSeconds | null;
  /** Exposures that seconds of both lights give; null where no time was tried. */
  readonly lights: (softSeconds: number, hardSeconds: number) => LightExposures | null;
}

export interface SplitSeconds {
  readonly soft: Bounded;
  readonly hard: Bounded;
}

/** Layer exposures this far apart are one light alone. */
const ALONE = 8;

interface Layers {
  readonly fit: VariableContrastFit;
  readonly own: boolean;
  readonly leftOut: readonly LeftOutError[];
}

/** The layers of a paper: its own strips where they can be fitted, else the built-in ones. */
function layersOf(paper: Paper | null, document: WorkDocument, derive: Derive): Layers {
  return fittedLayers(
    litStrips(paper, document, derive).flatMap(({ name, readings }) => [name, readings]),
  );
}

/** Fitted anew only where a strip of the paper changes: names and steps in turn. */
const fittedLayers = memoList((parts: readonly (string | LitStrip['readings'])[]): Layers => {
  const read = parts.flatMap((readings, i): LitStrip[] => {
    const name = parts[i - 1];
    return typeof readings === 'string' || typeof name !== 'string' ? [] : [{ name, readings }];
  });
  const readings = read.flatMap((strip) => strip.readings);
  const fit = readings.length === 0 ? null : fitVariableContrast(readings);
  if (fit === null || fit.paper === null) return { fit: builtInFit(), own: false, leftOut: [] };
  return { fit, own: true, leftOut: read.length > 2 ? leaveOneOut(read) : [] };
});

/** The built-in layers as a fit without errors. */
function builtInFit(): VariableContrastFit {
  const paper = { ...builtInSplit.paper, minimumDensity: USUAL_PAPER_WHITE };
  const [first = 0, second = 0, third = 0] = paper.softLogSpeeds;
  const values = [
    ['minimumDensity', paper.minimumDensity],
    ['netMaximumDensity', paper.netMaximumDensity],
    ['logLayerContrast', Math.log(paper.layerContrast)],
    ['hardLogSpeed', paper.hardLogSpeed],
    ['softLogSpeed1', first],
    ['softLogSpeedGap2', first - second],
    ['softLogSpeedGap3', second - third],
  ] as const;
  return {
    status: 'ok',
    reason: null,
    paper,
    form: { layers: paper.softLogSpeeds.length, drifts: false },
    parameters: values.map(([name, value]) => ({ name, value, standardError: null })),
    residualStandardDeviation: null,
    degreesOfFreedom: 0,
    covariance: null,
    weight: 1,
    companions: [],
  };
}

/**
 * @param document - for the paper
 * @param derive - the curves
 * @param view - the tones of the negative as the paper sees them
 * @param printing - what is wanted and which times were tried
 */
export function splitView(
  document: WorkDocument,
  derive: Derive,
  view: PrintingView,
  printing: Printing,
): SplitView | null {
  const paper = document.papers.find(({ id }) => id === document.plan.paperId) ?? null;
  const { fit, own, leftOut } = layersOf(paper, document, derive);
  const layers = fit.paper;
  if (layers === null) return null;
  const { minimumDensity, netMaximumDensity } = layers;
  const wanted = {
    shadow: printing.shadowPrintDensity ?? minimumDensity + SHADOW_FRACTION * netMaximumDensity,
    highlight: printing.highlightPrintDensity ?? minimumDensity + THRESHOLD_NET_DENSITY,
  };
  const aims = (tones: WantedTones): WantedTones => ({
    shadow: { ...tones.shadow, printDensity: wanted.shadow },
    highlight: { ...tones.highlight, printDensity: wanted.highlight },
  });
  const split = (tones: WantedTones) => splitForPrint(fit, aims(tones));
  const highlight = view.tones.before.highlight.negativeDensity.value;
  const reached =
    wanted.highlight > minimumDensity && wanted.highlight < minimumDensity + netMaximumDensity;
  const alone = reached ? exposuresAlone(layers, highlight, wanted.highlight) : null;
  const { softAloneSeconds, hardAloneSeconds } = printing;
  // log10 seconds for a log exposure of 0 under each light.
  const unit = own
    ? { soft: 0, hard: 0 }
    : alone === null || softAloneSeconds === null || hardAloneSeconds === null
      ? null
      : {
          soft: Math.log10(softAloneSeconds) - alone.soft,
          hard: Math.log10(hardAloneSeconds) - alone.hard,
        };
  const lights = (softSeconds: number, hardSeconds: number): LightExposures | null =>
    unit === null
      ? null
      : {
          softLogExposure: Math.log10(softSeconds) - unit.soft,
          hardLogExposure: Math.log10(hardSeconds) - unit.hard,
        };
  const seconds = (one: SplitForPrint): SplitSeconds | null => {
    if (one.status !== 'ok') return null;
    if (own) return { soft: one.softSeconds, hard: one.hardSeconds };
    if (unit === null) return null;
    return {
      soft: secondsFromLog(exactly(one.lights.softLogExposure + unit.soft)),
      hard: secondsFromLog(exactly(one.lights.hardLogExposure + unit.hard)),
    };
  };
  const { before, after } = view.tones;
  return {
    layers,
    fit,
    own,
    leftOut,
    wanted,
    before: split(before),
    after: split(after),
    seconds,
    lights,
  };
}

/** Log exposures, without a negative, by which one light alone prints the highlight. */
function exposuresAlone(
  layers: VariableContrastPaper,
  negativeDensity: number,
  printDensity: number,
): { soft: number; hard: number } {
  const even = (layers.softLogSpeeds[0] ?? 0) - layers.hardLogSpeed;
  const soft = (ratio: number) => negativeDensity + softLogExposureFor(layers, ratio, printDensity);
  return { soft: soft(even - ALONE), hard: soft(even + ALONE) + even + ALONE };
}
