/**
 * Tone reproduction as one composed function: subject, camera flare, film, bath, light, enlarger flare,
 * paper, lightness.
 *
 *   log H = log10(10^(l + h0) + F)          l log10 luminance of the subject, F camera flare
 *   D = film(log H)
 *   … and on to the print as in `print-negative.ts`
 *   gradient of the print = G_flare G_film G_treatment G_light G_enlarger G_paper
 *
 * The tone gradient is counted positive where a lighter subject prints lighter: minus the derivative
 * of the print density by l.
 *
 * Sources: [JONES1920] the four quadrants and the product of gradients. Deviations: none.
 */
import { functionOf, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { LOG_STOP } from '../readings/index.ts';
import { negativePrinter, type NegativePrinting, type NegativeTone } from './print-negative.ts';

/** The whole chain. Plain data. */
export interface ToneChain {
  readonly film: CharacteristicCurve;
  /** h0, log exposure on the film of a subject of log luminance 0, without flare. */
  readonly logExposureAtZero: number;
  /** F, camera flare in the unit of the film's exposure; 0 for none. */
  readonly cameraFlareExposure: number;
  readonly printing: NegativePrinting;
}

/** One tone on its whole way. */
export interface SubjectTone extends NegativeTone {
  /** log10 luminance of the subject, relative. */
  readonly logLuminance: number;
  /** On the film, flare included. */
  readonly logExposure: number;
  readonly gradients: NegativeTone['gradients'] & {
    /** d log exposure / d log luminance, in (0, 1]. */
    readonly cameraFlare: number;
    readonly film: number;
  };
  /** - d print density / d log luminance. */
  readonly toneGradient: number;
  /** d L* / d log luminance. */
  readonly lightnessGradient: number;
  /** True where the film's readings do not reach. */
  readonly extrapolated: boolean;
}

/**
 * Follows one tone from the subject to the print.
 *
 * @param chain - the whole chain
 * @param logLuminance - log10 luminance of the subject, relative
 * @throws InvalidArgumentError if a value is out of range
 */
export function followTone(chain: ToneChain, logLuminance: number): SubjectTone {
  if (!Number.isFinite(logLuminance)) {
    throw new InvalidArgumentError('followTone', 'logLuminance', logLuminance, 'finite');
  }
  return tonePrinter(chain)(logLuminance);
}

/**
 * The same, made ready for many tones.
 *
 * @param chain - the whole chain
 * @returns the function from log luminance to tone; its argument is not checked
 * @throws InvalidArgumentError if a value of `chain` is out of range
 */
export function tonePrinter(chain: ToneChain): (logLuminance: number) => SubjectTone {
  const { film } = chain;
  const onFilm = exposureOnFilm(chain);
  const print = negativePrinter(chain.printing);
  const model = functionOf(film);
  const [first, last] = film.logExposureRange;
  return (logLuminance) => {
    const { image, logExposure } = onFilm(logLuminance);
    const tone = print(model.value(logExposure, film.parameters));
    const gradients = {
      ...tone.gradients,
      cameraFlare: image,
      film: model.gradient(logExposure, film.parameters),
    };
    const toneGradient =
      gradients.cameraFlare *
      gradients.film *
      gradients.treatment *
      gradients.light *
      gradients.enlargerFlare *
      gradients.paper;
    return {
      ...tone,
      logLuminance,
      logExposure,
      gradients,
      toneGradient,
      lightnessGradient: -toneGradient * gradients.lightness,
      extrapolated: logExposure < first - 1e-9 || logExposure > last + 1e-9,
    };
  };
}

/**
 * Density of the negative alone, for tables of many tones.
 *
 * @param chain - the whole chain
 * @returns the function from log luminance to gross density; its argument is not checked
 * @throws InvalidArgumentError if a value of `chain` is out of range
 */
export function filmDensityOf(chain: ToneChain): (logLuminance: number) => number {
  const onFilm = exposureOnFilm(chain);
  const model = functionOf(chain.film);
  const { parameters } = chain.film;
  return (logLuminance) => model.value(onFilm(logLuminance).logExposure, parameters);
}

/** Light that reaches the film: the part that makes the image, and the log exposure in all. */
function exposureOnFilm(
  chain: ToneChain,
): (logLuminance: number) => { readonly image: number; readonly logExposure: number } {
  const { logExposureAtZero, cameraFlareExposure } = chain;
  if (!Number.isFinite(logExposureAtZero)) {
    throw new InvalidArgumentError('toneChain', 'logExposureAtZero', logExposureAtZero, 'finite');
  }
  if (!(cameraFlareExposure >= 0 && cameraFlareExposure < Infinity)) {
    throw new InvalidArgumentError(
      'toneChain',
      'cameraFlareExposure',
      cameraFlareExposure,
      'zero or more',
    );
  }
  return (logLuminance) => {
    const image = 10 ** (logLuminance + logExposureAtZero);
    const exposure = image + cameraFlareExposure;
    return { image: image / exposure, logExposure: Math.log10(exposure) };
  };
}

/** A tone of the zone ladder. */
export interface ZoneTone extends SubjectTone {
  /** 0 to 10; zone V is log luminance 0. */
  readonly zone: number;
}

/**
 * The zones from subject to print.
 *
 * @param chain - the chain; log luminance 0 is zone V
 * @param zones - 0 to X as 0 to 10 unless given
 * @returns one tone for each zone, a stop apart
 * @throws InvalidArgumentError if a value is out of range
 */
export function zoneTones(
  chain: ToneChain,
  zones: readonly number[] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
): ZoneTone[] {
  if (!zones.every((zone) => zone >= -5 && zone <= 20)) {
    throw new InvalidArgumentError('zoneTones', 'zones', zones, 'from -5 to 20');
  }
  const follow = tonePrinter(chain);
  return zones.map((zone) => ({ ...follow(LOG_STOP * (zone - 5)), zone }));
}
