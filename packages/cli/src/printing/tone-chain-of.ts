/** `print --film`: every zone of the subject through film, bath and enlarger to the print. */
import {
  defaultTreatment,
  derivedBaseFog,
  generatedPaper,
  mixturePaper,
  paperAtSetting,
  paperMapFromGrades,
  paperResponse,
  placedSubject,
  printLogExposureFor,
  toneErrorsOf,
  treatmentEffect,
  usefulSubjectRange,
  THRESHOLD_NET_DENSITY,
  USUAL_PAPER_WHITE,
  zoneTones,
  type CharacteristicCurve,
  type Estimate,
  type GradeTable,
  type MeasuredPaper,
  type PaperMap,
  type PrintPaper,
  type ToneChain,
  type TreatmentEffect,
  type UsefulSubjectRange,
  type VariableContrastFit,
  type Warning,
  type ZoneTone,
} from '@wedgebook/core';
import { cautionsFor, seleniumDefaults, type Caution } from '@wedgebook/data';
import { inputFault } from '@wedgebook/notebook';
import type { Arguments, OptionKinds } from '../input/arguments.ts';
import { givenLight, givenStain } from '../input/negative.ts';
import { fileName, readReadingsFile } from '../input/read-file.ts';
import { requireSource, stripOptions } from '../input/strip-options.ts';
import type { CommandIo } from '../io.ts';
import { fittedStrip } from '../strips/fitted-strip.ts';
import { stripsOf } from '../strips/strips-of.ts';
import { USAGE } from '../text.ts';
import { partsOfDilution } from '../treatment/plan-order.ts';
import { UsageError } from '../usage-error.ts';
import { fittedModel } from '../verbs/treat.ts';
import type { PrintOnPaper } from './print-on-paper.ts';

export const CHAIN_OPTIONS = {
  film: { type: 'string' },
  'film-strip': { type: 'string' },
  'shadow-zone': { type: 'string' },
  'subject-range': { type: 'string' },
  'camera-flare': { type: 'string' },
  'enlarger-flare': { type: 'string' },
  grade: { type: 'string' },
  'paper-scale': { type: 'string' },
  treated: { type: 'string' },
  law: { type: 'string' },
  response: { type: 'string' },
  minutes: { type: 'string' },
  dilution: { type: 'string' },
  celsius: { type: 'string' },
  'stain-kept': { type: 'string' },
} as const satisfies OptionKinds;

/** Options that mean nothing without a film. */
export const FILM_ONLY = Object.keys(CHAIN_OPTIONS).filter((name) => name !== 'film');

/** A zone with the errors of its densities. */
interface ChainZone extends Omit<ZoneTone, 'negativeDensity' | 'printDensity' | 'lightness'> {
  readonly negativeDensity: Estimate;
  readonly printDensity: Estimate;
  readonly lightness: Estimate;
}

interface ChainPrint {
  readonly treated: boolean;
  /** Log exposure without a negative, above the paper's threshold, that holds the highlight. */
  readonly printLogExposure: number;
  readonly usefulRange: UsefulSubjectRange;
  readonly zones: readonly ChainZone[];
}

export interface ShownChain {
  readonly filmStrip: string;
  readonly shadowZone: number;
  readonly subjectRangeStops: number;
  readonly cameraFlareFactor: number;
  /** Part of the light through clear film. */
  readonly enlargerFlare: number;
  readonly callierFactor: number;
  readonly callierFactorError: number | null;
  readonly baseFog: number;
  readonly paper: { readonly label: string; readonly exposureScale: number };
  readonly highlightPrintDensity: number;
  readonly prints: readonly ChainPrint[];
  readonly cautions: readonly Caution[];
  readonly warnings: readonly Warning[];
}

/** The paper of the command, where strips of one were given. */
export interface ChainPaper {
  readonly print: PrintOnPaper;
  readonly map: PaperMap | null;
  readonly layers: VariableContrastFit | null;
}

const USUAL = { shadowZone: 3, subjectRangeStops: 7, cameraFlareFactor: 1, grade: 2 } as const;

/**
 * @param own - the paper with its setting or its lights, or null for a paper of a grade or scale
 * @throws {InputError} where the film does not reach the shadow, or the paper not the highlight
 * @throws {UsageError} where options are missing
 */
export async function toneChainOf(
  given: Arguments,
  io: CommandIo,
  gradeTable: GradeTable,
  own: ChainPaper | null,
): Promise<ShownChain> {
  const file = fileName(given.text('film') ?? '');
  const shadow = given.number('shadow', -0.5, 6);
  const highlight = given.number('highlight', -0.5, 6);
  if (shadow === undefined || highlight === undefined) throw new UsageError(USAGE.filmNeedsSpots);
  if (!(highlight > shadow)) {
    throw inputFault.tonesRefused({ file }, { reason: 'highlight-thinner-than-shadow' });
  }
  const shadowZone = given.number('shadow-zone', 0, 10) ?? USUAL.shadowZone;
  const subjectRangeStops = given.number('subject-range', 2, 20) ?? USUAL.subjectRangeStops;
  const cameraFlareFactor = given.number('camera-flare', 1, 16) ?? USUAL.cameraFlareFactor;
  if (cameraFlareFactor >= 2 ** subjectRangeStops) throw new UsageError(USAGE.flareSwallows);
  const enlargerFlare = (given.number('enlarger-flare', 0, 50) ?? 0) / 100;
  const { paper, label, measured } = chainPaper(given, gradeTable, own);
  const bath = await givenBath(given, io);
  const film = await filmOf(given, io);

  const placement = { shadowDensity: shadow, shadowZone, subjectRangeStops };
  const placed = placedSubject(film.curve, { ...placement, flareFactor: cameraFlareFactor });
  if (placed === null) {
    throw inputFault.shadowOffCurve({ file }, shadow, film.curve.densityRangeRead);
  }
  const { callierFactor, callierFactorError } = givenLight(given);
  const baseFog = given.number('base-fog', 0, 2) ?? derivedBaseFog(film.curve).value;
  const { whiteDensity, netMaximum } = paperResponse(paper);
  const paperWhiteDensity = whiteDensity ?? USUAL_PAPER_WHITE;
  const reach = [paperWhiteDensity + 0.005, paperWhiteDensity + netMaximum - 0.005] as const;
  const light = { baseFog, callierFactor, enlargerFlare, paper, paperWhiteDensity };
  const highlightPrintDensity =
    given.number('print-highlight', 0, 4) ?? paperWhiteDensity + THRESHOLD_NET_DENSITY;
  if (!(highlightPrintDensity > paperWhiteDensity)) {
    throw inputFault.tonesRefused(
      { file },
      {
        reason: 'highlight-outside-paper',
        nearest: reach,
      },
    );
  }
  const prints = bath.effects.map(({ treated, effect }): ChainPrint => {
    const aim = { negativeDensity: highlight, printDensity: highlightPrintDensity };
    const printLogExposure = printLogExposureFor({ ...light, effect }, aim);
    if (printLogExposure === null) {
      throw inputFault.tonesRefused(
        { file },
        {
          reason: 'highlight-outside-paper',
          nearest: reach,
        },
      );
    }
    const printing = { ...light, effect, printLogExposure };
    const chain: ToneChain = { film: film.curve, ...placed, printing };
    const held = {
      negativeDensity: shadow,
      printDensity: highlightPrintDensity,
      timedNegativeDensity: highlight,
    };
    const errors = toneErrorsOf(chain, measured, held, callierFactorError);
    const zones = zoneTones(chain).map((tone): ChainZone => {
      const error = errors(tone);
      return {
        ...tone,
        negativeDensity: { value: tone.negativeDensity, standardError: error.negativeDensity },
        printDensity: { value: tone.printDensity, standardError: error.printDensity },
        lightness: { value: tone.lightness, standardError: error.lightness },
      };
    });
    return { treated, printLogExposure, usefulRange: usefulSubjectRange(chain), zones };
  });
  return {
    filmStrip: film.name,
    shadowZone,
    subjectRangeStops,
    cameraFlareFactor,
    enlargerFlare,
    callierFactor,
    callierFactorError,
    baseFog,
    paper: { label, exposureScale: paper.exposureScale },
    highlightPrintDensity,
    prints,
    cautions: bath.cautions,
    warnings: [...film.warnings, ...bath.warnings],
  };
}

/** The one film strip of the file, or the one that is named. */
async function filmOf(
  given: Arguments,
  io: CommandIo,
): Promise<{ name: string; curve: CharacteristicCurve; warnings: readonly Warning[] }> {
  const file = given.text('film') ?? '';
  const options = stripOptions(given, file);
  const readings = await readReadingsFile(file, io, options);
  requireSource(readings, options);
  const { strips, warnings } = stripsOf('film', readings, fileName(file));
  const wanted = given.text('film-strip');
  const names = strips.map(({ name }) => name);
  const strip =
    wanted === undefined
      ? strips.length === 1
        ? strips[0]
        : undefined
      : strips.find(({ name }) => name === wanted);
  if (strip === undefined) throw new UsageError(USAGE.whichFilmStrip(wanted ?? null, names));
  const fitted = fittedStrip(strip, options.exposure, options.model, 'film');
  if (fitted.curve === null) throw inputFault.filmNotFitted({ file: fileName(file) }, strip.name);
  return { name: strip.name, curve: fitted.curve, warnings: [...warnings, ...fitted.warnings] };
}

/** One's own paper at its setting or under its lights, else the generated paper of a grade or scale. */
function chainPaper(
  given: Arguments,
  table: GradeTable,
  own: ChainPaper | null,
): {
  readonly paper: PrintPaper;
  readonly label: string;
  readonly measured: MeasuredPaper | null;
} {
  if (own !== null) {
    if (given.has('grade') || given.has('paper-scale')) throw new UsageError(USAGE.onePaperOnly);
    const { print, map, layers } = own;
    if (print.setting !== null && map !== null) {
      const { position, setting } = print.setting;
      const { paper } = paperAtSetting(map, position);
      return { paper, label: setting, measured: { kind: 'setting', map, position } };
    }
    if (print.split?.status === 'ok' && layers?.paper) {
      const { softLogExposure, hardLogExposure } = print.split.lights;
      const logRatio = hardLogExposure - softLogExposure;
      const paper = mixturePaper(layers.paper, logRatio);
      return { paper, label: 'soft + hard', measured: { kind: 'mixture', fit: layers, logRatio } };
    }
  }
  const scale = given.number('paper-scale', 0.3, 3);
  if (scale !== undefined) {
    if (given.has('grade')) throw new UsageError(USAGE.onePaperOnly);
    return { paper: generatedPaper(scale), label: `scale ${scale} log10`, measured: null };
  }
  const grade = given.number('grade', -10, 10) ?? USUAL.grade;
  const grades = paperMapFromGrades(table);
  const positions = grades.settings.map(({ position }) => position);
  if (!(grade >= Math.min(...positions) && grade <= Math.max(...positions))) {
    throw new UsageError(USAGE.gradeUnknown(grade, positions));
  }
  const { paper } = paperAtSetting(grades, grade);
  return { paper, label: `grade ${grade}`, measured: null };
}

interface GivenBath {
  readonly effects: readonly {
    readonly treated: boolean;
    readonly effect: TreatmentEffect | null;
  }[];
  readonly cautions: readonly Caution[];
  readonly warnings: readonly Warning[];
}

/** The untreated negative, and the treated one where a bath is given. */
async function givenBath(given: Arguments, io: CommandIo): Promise<GivenBath> {
  const minutes = given.number('minutes', 0, 10_000);
  const { stain, stainKept } = givenStain(given);
  if (minutes === undefined) {
    const idle = ['dilution', 'celsius', 'stain-kept', 'treated'].find((name) => given.has(name));
    if (idle !== undefined) throw new UsageError(USAGE.needsMinutes(idle));
    if (stain === 0) {
      return { effects: [{ treated: false, effect: null }], cautions: [], warnings: [] };
    }
  }
  const treated = given.text('treated');
  const source = treated === undefined ? null : await fittedModel(treated, {}, given, io);
  const model = source?.model ?? defaultTreatment(seleniumDefaults);
  const dilution = given.text('dilution');
  if (minutes !== undefined && dilution === undefined) {
    throw new UsageError(USAGE.needs('dilution', '1+n, such as 1+3'));
  }
  const bath = {
    partsWater: partsOfDilution(dilution ?? '1+1'),
    celsius: given.number('celsius', 0, 60) ?? 20,
  };
  const effectAfter = (time: number) =>
    treatmentEffect(model, { ...bath, minutes: time }, { stain, stainKept });
  const untreated = { treated: false, effect: effectAfter(0) };
  if (minutes === undefined) return { effects: [untreated], cautions: [], warnings: [] };
  const effect = effectAfter(minutes);
  return {
    effects: [untreated, { treated: true, effect }],
    cautions: cautionsFor(source?.process ?? 'selenium'),
    warnings: [...(source?.warnings ?? []), ...model.warnings, ...effect.warnings],
  };
}
