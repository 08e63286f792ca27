/**
 * Errors of the two exposures of a split: of the fitted paper, of the form of its layers, and of the
 * readings on the negative.
 *
 *   D_i(x_h - n_i, x_s - n_i; p) = D_i   defines (x_s, x_h);   J (dx_s, dx_h)' = g_i dn_i - ∂D_i/∂p dp
 *   var x = Σ_m w_m (var_m x + (x_m - x)²)   over the forms of layers m
 *
 * J holds the slopes by each light, g_i their sum; x_m is solved anew for each form.
 *
 * Sources: implicit function theorem; [Seber2003] section 5.1; [BA2002] section 4.3.2. Deviations: a
 * form that cannot give the two tones at all is left out.
 */
import { combinedError, type Estimate } from '../../estimate.ts';
import { unconditionalError, type DerivedOfModel } from '../../fitting/index.ts';
import {
  mixtureDerivatives,
  toneOfMixture,
  type LayerCompanion,
  type VariableContrastFit,
  type VariableContrastPaper,
} from '../../paper/index.ts';

/** Densities of the negative under the two tones. */
export interface SplitSpots {
  readonly highlight: Estimate;
  readonly shadow: Estimate;
}

interface Lights {
  readonly softLogExposure: number;
  readonly hardLogExposure: number;
}

/** What a change of each light's exposure, or of hard over soft, is. */
interface Change {
  readonly soft: number;
  readonly hard: number;
  readonly ratio: number;
}

/**
 * Standard errors of the log exposures of a split.
 *
 * @param fit - the fitted paper
 * @param split - log exposures that give the two tones
 * @param spots - densities of the negative with their errors
 * @param shared - by how much each moves with one standard error of what both share
 * @returns log10 exposures' errors; null where neither paper nor negative has any
 */
export function splitErrors(
  fit: VariableContrastFit,
  split: Lights,
  spots: SplitSpots,
  shared: { readonly highlight: number | null; readonly shadow: number | null },
): Readonly<Record<keyof Change, number | null>> {
  const none = { soft: null, hard: null, ratio: null };
  if (fit.paper === null) return none;
  const p = fit.parameters.map(({ value }) => value);
  const own = atSplit({ paper: fit.paper, form: fit.form, parameters: p }, split, spots);
  if (own === null) return none;
  const rivals = fit.companions.map((rival) => {
    const lights = solved(rival.paper, split, spots, own.tones);
    const there = lights && atSplit(rival, lights, spots);
    return there && { ...there, lights, covariance: rival.covariance, weight: rival.weight };
  });
  const valueOf = (lights: Lights, which: keyof Change): number =>
    which === 'soft'
      ? lights.softLogExposure
      : which === 'hard'
        ? lights.hardLogExposure
        : lights.hardLogExposure - lights.softLogExposure;
  const errorOf = (which: keyof Change): number | null => {
    const spotErrors = [spots.highlight, spots.shadow].map(({ standardError }, i) =>
      standardError === null ? null : (own.bySpot[i]?.[which] ?? 0) * standardError,
    );
    const derived = (
      at: { readonly byParameter: readonly Change[] },
      lights: Lights,
      covariance: readonly number[] | null,
      weight: number,
    ): DerivedOfModel => ({
      value: valueOf(lights, which),
      derivatives: at.byParameter.map((change) => change[which]),
      covariance,
      weight,
    });
    const paperError = unconditionalError(
      derived(own, split, fit.covariance, fit.weight),
      rivals.map((rival) => rival && derived(rival, rival.lights, rival.covariance, rival.weight)),
    );
    const together = [shared.highlight, shared.shadow].map((moved, i) =>
      moved === null ? null : (own.bySpot[i]?.[which] ?? 0) * moved,
    );
    const sharedError = together.every((part) => part === null)
      ? null
      : together.reduce((sum: number, part) => sum + (part ?? 0), 0);
    return combinedError(...spotErrors, sharedError, paperError);
  };
  return { soft: errorOf('soft'), hard: errorOf('hard'), ratio: errorOf('ratio') };
}

interface AtSplit {
  /** Print densities of highlight and shadow. */
  readonly tones: readonly [number, number];
  readonly bySpot: readonly Change[];
  readonly byParameter: readonly Change[];
}

/** What the exposures owe to the spots and to the parameters; null where one light does nothing. */
function atSplit(
  { paper, form, parameters: p }: Pick<LayerCompanion, 'paper' | 'form' | 'parameters'>,
  split: Lights,
  spots: SplitSpots,
): AtSplit | null {
  const [a, b] = [spots.highlight, spots.shadow].map(({ value }) => {
    const hardLogExposure = split.hardLogExposure - value;
    const softLogExposure = split.softLogExposure - value;
    const tone = toneOfMixture(paper, hardLogExposure, softLogExposure);
    const byParameters = new Float64Array(p.length);
    mixtureDerivatives(form, p, { hardLogExposure, softLogExposure }, byParameters, 0);
    return {
      soft: tone.gradientBySoft,
      hard: tone.gradientByHard,
      density: paper.minimumDensity + tone.netDensity,
      byParameters,
    };
  });
  if (a === undefined || b === undefined) return null;
  const solve = inverse(a, b);
  if (solve === null) return null;
  return {
    tones: [a.density, b.density],
    bySpot: [solve(a.soft + a.hard, 0), solve(0, b.soft + b.hard)],
    byParameter: p.map((_, j) => solve(-(a.byParameters[j] ?? 0), -(b.byParameters[j] ?? 0))),
  };
}

interface Slopes {
  readonly soft: number;
  readonly hard: number;
}

/** What a change of the right-hand sides (of both tones) does to each exposure. */
function inverse(a: Slopes, b: Slopes): ((first: number, second: number) => Change) | null {
  const determinant = a.soft * b.hard - a.hard * b.soft;
  if (!(Math.abs(determinant) > 1e-12)) return null;
  return (first, second) => {
    const soft = (first * b.hard - second * a.hard) / determinant;
    const hard = (a.soft * second - b.soft * first) / determinant;
    return { soft, hard, ratio: hard - soft };
  };
}

const STEPS = 40;
/** log10 exposure that one step may change. */
const LONGEST_STEP = 0.3;

/** The split that gives the same two tones on another paper, from a near one; null where none is. */
function solved(
  paper: VariableContrastPaper,
  from: Lights,
  spots: SplitSpots,
  [highlight, shadow]: readonly [number, number],
): Lights | null {
  let { softLogExposure, hardLogExposure } = from;
  for (let i = 0; i < STEPS; i++) {
    const [a, b] = [spots.highlight, spots.shadow].map(({ value }) => {
      const tone = toneOfMixture(paper, hardLogExposure - value, softLogExposure - value);
      const density = paper.minimumDensity + tone.netDensity;
      return { soft: tone.gradientBySoft, hard: tone.gradientByHard, density };
    });
    if (a === undefined || b === undefined) return null;
    const change = inverse(a, b)?.(highlight - a.density, shadow - b.density) ?? null;
    if (change === null) return null;
    const longest = Math.max(Math.abs(change.soft), Math.abs(change.hard));
    const part = Math.min(1, LONGEST_STEP / longest);
    softLogExposure += part * change.soft;
    hardLogExposure += part * change.hard;
    if (longest < 1e-9) return { softLogExposure, hardLogExposure };
  }
  return null;
}
