/**
 * Development times of one film from its strips: contrast against time, the plan, and the time to
 * test next, remembered like the curves.
 */
import {
  contrastForPaper,
  contrastOf,
  developmentPlan,
  fitContrastModel,
  fitSpeedModel,
  isContrastMeasure,
  nextDevelopment,
  speedPointOf,
  type ContrastForPaper,
  type ContrastModel,
  type ContrastModelFit,
  type Estimate,
  type NextDevelopment,
  type PlannedDevelopment,
  type SpeedModel,
} from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import {
  DEFAULT_DEVELOPMENT_PLAN,
  type DevelopmentMeasure,
  type DevelopmentPlan,
  type Strip,
} from '@wedgebook/notebook';
import { development as text } from '../text/development.ts';
import type { Derive, StripFit } from './derive.ts';
import { factorErrorOf, type ChosenPaper, type DeriveBath } from './derive-bath.ts';
import { driftOf, type DriftView } from './derive-drift.ts';
import { memo, memoByKey, memoList } from './memo.ts';
import type { WorkDocument } from './work.ts';

/** Why a strip takes no part in the law of its film. */
export type LeftOut = 'no-time' | 'temperature' | 'no-curve' | 'not-measured' | 'control';

/** A strip of the film at its development. */
export interface DevelopedStrip {
  readonly strip: Strip;
  readonly fit: StripFit;
  readonly development: Strip['development'];
  readonly contrast: Estimate | null;
  /** Log exposure of the speed point; null where exposures are relative or it is not reached. */
  readonly speedPoint: Estimate | null;
  readonly leftOut: LeftOut | null;
}

/** A strip that takes part. */
export interface TimedStrip extends DevelopedStrip {
  readonly development: NonNullable<Strip['development']>;
  readonly contrast: Estimate;
}

/** Where the contrast of normal development comes from. */
export interface Aim {
  readonly contrast: number;
  /** Its standard error, by that of the paper's scale; 0 for a figure of the user's own. */
  readonly contrastError: number;
  readonly origin: 'paper' | 'own';
  /** What the paper asks for; null where there is no paper or flare swallows the subject. */
  readonly scene: ContrastForPaper | null;
  readonly paper: ChosenPaper | null;
}

/** Both laws of contrast against time on the same strips. */
export interface Laws {
  readonly fit: ContrastModelFit;
  readonly model: ContrastModel | null;
  /** The other form, for comparison, however well it fits. */
  readonly rival: ContrastModel | null;
  readonly speed: SpeedModel | null;
}

/** What each figure of the plan can be; a file may hold anything finite. */
export const PLAN_LIMITS = {
  target: [0.05, 5],
  celsius: [0, 60],
  subjectRangeStops: [1, 14],
  flareFactor: [1, 8],
  speedNetDensity: [0.02, 1],
  temperatureCoefficient: [1, 6],
  limitStrips: [3, 50],
  chosenMinutes: [0.1, 1000],
} as const;
export type PlanFigure = keyof typeof PLAN_LIMITS;

export interface DevelopmentView {
  /** The plan's settings, senseless ones replaced. */
  readonly settings: DevelopmentPlan;
  /** Settings of the notebook that cannot be and were replaced by the usual ones. */
  readonly replaced: readonly (PlanFigure | 'measure')[];
  readonly coefficient: number;
  /** Films to choose from: id, or empty for strips without a film, and name. */
  readonly films: readonly (readonly [string, string])[];
  /** Empty for strips without a film. */
  readonly filmId: string;
  /** Untreated strips of the film, those left out too. */
  readonly strips: readonly DevelopedStrip[];
  readonly timed: readonly TimedStrip[];
  readonly treatedCount: number;
  readonly laws: Laws;
  /** Null where neither paper nor own figure gives a contrast. */
  readonly aim: Aim | null;
  readonly plan: readonly PlannedDevelopment[];
  readonly next: NextDevelopment | null;
}

const CHANGES = [-3, -2, -1, 0, 1, 2, 3] as const;
/** A plan for n stops of expansion needs an image longer than that. */
const LEAST_IMAGE_STOPS = 3.5;
const CANDIDATES = 33;
const NO_FILM = [['', text.noFilm]] as const;

export class DeriveDevelopment {
  readonly #derive: Derive;
  readonly #bath: DeriveBath;
  readonly #measured = memoByKey(measured);
  readonly #strip = memoByKey(developedStrip);
  readonly #sound = memo(soundSettings);
  readonly #strips = memoList((strips: readonly DevelopedStrip[]) => strips);
  readonly #timed = memoList((strips: readonly TimedStrip[]) => strips);
  readonly #laws = memo(fitLaws);
  readonly #plan = memo(planOf);
  readonly #drift = memo((strips: readonly DevelopedStrip[], first: number) =>
    driftOf(
      strips,
      ({ strip, fit }) => this.#derive.film(strip, fit)?.baseFog ?? null,
      Math.round(first),
    ),
  );
  readonly #view = memo((document: WorkDocument) => this.#compute(document));

  constructor(derive: Derive, bath: DeriveBath) {
    this.#derive = derive;
    this.#bath = bath;
  }

  /** Strips, laws, aim, plan and the time to test next, for one state of the notebook. */
  view(document: WorkDocument): DevelopmentView {
    return this.#view(document);
  }

  /** Control strips of the film and what they signal. */
  drift(document: WorkDocument): DriftView {
    const { strips, settings } = this.#view(document);
    return this.#drift(strips, settings.limitStrips);
  }

  #compute(document: WorkDocument): DevelopmentView {
    const { settings, replaced } = this.#sound(document.developmentPlan);
    const coefficient =
      settings.temperatureCoefficient ?? developmentDefaults.temperatureCoefficient.value;
    const films = filmsOf(document);
    const filmId = chosenFilm(settings.filmId, films);
    const own = document.strips.filter(
      (strip) => strip.material === 'film' && (strip.filmId ?? '') === filmId,
    );
    const untreated = own.filter(({ treatment }) => treatment === null);
    const strips = this.#strips(
      untreated.map((strip) => {
        const fit = this.#derive.fit(document, strip, document.plan.curveFamily);
        const found = this.#measured(strip.id, fit, settings.measure, settings.speedNetDensity);
        return this.#strip(strip.id, strip, fit, found);
      }),
    );
    const timed = this.#timed(strips.filter(isTimed));
    const laws = this.#laws(timed, coefficient);
    const aim = this.#aim(document, settings);
    const plan = this.#plan(
      laws,
      aim?.contrast ?? null,
      aim?.contrastError ?? 0,
      aim?.scene?.imageStops ?? imageStopsOf(settings),
      settings.celsius,
    );
    return {
      settings,
      replaced,
      coefficient,
      films,
      filmId,
      strips,
      timed,
      treatedCount: own.length - strips.length,
      laws,
      aim,
      ...plan,
    };
  }

  #aim(document: WorkDocument, settings: DevelopmentPlan): Aim | null {
    const { target, subjectRangeStops, flareFactor } = settings;
    const { paper } = this.#bath.view(
      document,
      document.plan.curveFamily,
      document.plan.targetGrade,
    );
    const exposureScale = paper?.exposureScale.value ?? 0;
    const scene =
      exposureScale > 0 && imageStopsOf(settings) !== null
        ? contrastForPaper({
            exposureScale,
            exposureScaleError: paper?.exposureScale.standardError ?? null,
            subjectRangeStops,
            flareFactor,
            callierFactor: document.plan.callierFactor,
            callierFactorError: factorErrorOf(document.plan),
          })
        : null;
    if (target !== null) {
      return { contrast: target, contrastError: 0, origin: 'own', scene, paper };
    }
    if (scene === null) return null;
    return {
      contrast: scene.contrast,
      contrastError: scene.contrastError ?? 0,
      origin: 'paper',
      scene,
      paper,
    };
  }
}

/** The settings with the usual figure in place of each that cannot be. */
function soundSettings(settings: DevelopmentPlan): Pick<DevelopmentView, 'settings' | 'replaced'> {
  const names = Object.keys(PLAN_LIMITS) as PlanFigure[];
  const senseless = names.filter((name) => {
    const value = settings[name];
    const [least, most] = PLAN_LIMITS[name];
    return value !== null && !(value >= least && value <= most);
  });
  const unnamed = isContrastMeasure(settings.measure) ? [] : (['measure'] as const);
  const replaced = [...unnamed, ...senseless];
  if (replaced.length === 0) return { settings, replaced };
  const usual = Object.fromEntries(replaced.map((name) => [name, DEFAULT_DEVELOPMENT_PLAN[name]]));
  return { settings: { ...settings, ...usual }, replaced };
}

/** Stops of image on the film; null where flare leaves too few to plan for. */
function imageStopsOf({ subjectRangeStops, flareFactor }: DevelopmentPlan): number | null {
  const stops = subjectRangeStops - Math.log2(flareFactor);
  return stops >= LEAST_IMAGE_STOPS ? stops : null;
}

/** Films that have strips, and the strips without a film where there are any. */
function filmsOf({ films, strips }: WorkDocument): DevelopmentView['films'] {
  const used = new Set(
    strips.flatMap(({ material, filmId }) => (material === 'film' ? [filmId ?? ''] : [])),
  );
  const named = films.filter(({ id }) => used.has(id));
  return [...named.map(({ id, name }) => [id, name] as const), ...(used.has('') ? NO_FILM : [])];
}

/** The film of the plan while it has strips, else the first that has. */
function chosenFilm(filmId: string | null, films: DevelopmentView['films']): string {
  const known = films.some(([id]) => id === filmId);
  return known && filmId !== null ? filmId : (films[0]?.[0] ?? '');
}

type Measured = Pick<DevelopedStrip, 'contrast' | 'speedPoint'>;

function measured(
  { curve, readings }: StripFit,
  measure: DevelopmentMeasure,
  netDensity: number,
): Measured {
  if (curve === null) return { contrast: null, speedPoint: null };
  return {
    contrast: contrastOf(curve, measure),
    speedPoint: readings.exposureKind === 'absolute' ? speedPointOf(curve, netDensity) : null,
  };
}

function developedStrip(strip: Strip, fit: StripFit, found: Measured): DevelopedStrip {
  const { development, control } = strip;
  const leftOut: LeftOut | null = control
    ? 'control'
    : development === null || !(development.minutes > 0)
      ? 'no-time'
      : outOfRange(development.celsius)
        ? 'temperature'
        : fit.curve === null
          ? 'no-curve'
          : found.contrast === null || !(found.contrast.value > 0)
            ? 'not-measured'
            : null;
  return { strip, fit, development, ...found, leftOut };
}

const outOfRange = (celsius: number): boolean => !(celsius >= 0 && celsius <= 60);

function isTimed(strip: DevelopedStrip): strip is TimedStrip {
  return strip.leftOut === null && strip.development !== null && strip.contrast !== null;
}

/** The law that is used, the other form beside it, and the line of speed points. */
function fitLaws(timed: readonly TimedStrip[], temperatureCoefficient: number): Laws {
  const readings = timed.map(({ development, contrast }) => ({ ...development, contrast }));
  const fit = fitContrastModel(readings, { temperatureCoefficient });
  if (fit.status !== 'ok') return { fit, model: null, rival: null, speed: null };
  const { model } = fit;
  const family = model.family === 'first-order' ? 'log-linear' : 'first-order';
  const other =
    model.basis === 'scaled-guess'
      ? null
      : fitContrastModel(readings, { temperatureCoefficient, family });
  const points = timed.flatMap(({ development, speedPoint }) =>
    speedPoint === null ? [] : [{ ...development, logExposure: speedPoint }],
  );
  const q = model.temperatureCoefficient.value;
  return {
    fit,
    model,
    rival: other?.status === 'ok' ? other.model : null,
    speed: points.length === 0 ? null : fitSpeedModel(points, { temperatureCoefficient: q }),
  };
}

function planOf(
  { model, speed }: Laws,
  contrast: number | null,
  contrastError: number,
  imageStops: number | null,
  celsius: number,
): Pick<DevelopmentView, 'plan' | 'next'> {
  if (model === null || contrast === null || !(contrast > 0 && contrast < 10)) {
    return { plan: [], next: null };
  }
  const { texturalStops, usablePart, shortestMinutes } = developmentDefaults;
  const plan = developmentPlan(model, {
    normalContrast: contrast,
    normalContrastError: contrastError,
    changes: CHANGES,
    texturalStops: imageStops ?? texturalStops.value,
    celsius,
    speed,
    usablePart: usablePart.value,
    shortestMinutes: shortestMinutes.value,
  });
  const reached = plan.flatMap(({ minutes, contrast }) =>
    minutes === null ? [] : [{ minutes: minutes.value, contrast }],
  );
  const contrasts = reached.map((row) => row.contrast);
  const candidates = candidatesFor(reached.map(({ minutes }) => minutes));
  const next =
    candidates.length === 0 ? null : nextDevelopment(model, { contrasts, candidates, celsius });
  return { plan, next };
}

/** Times worth testing, to the quarter minute: those of the plan and a little beyond. */
function candidatesFor(planned: readonly number[]): number[] {
  if (planned.length === 0) return [];
  const from = 0.7 * Math.min(...planned);
  const to = Math.min(60, 1.25 * Math.max(...planned));
  const grid = Array.from({ length: CANDIDATES }, (_, i) => {
    const minutes = from * (to / from) ** (i / (CANDIDATES - 1));
    return Math.max(0.25, Math.round(4 * minutes) / 4);
  });
  return [...new Set(grid)];
}
