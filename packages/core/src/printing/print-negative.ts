/**
 * From the density of a negative to the tone of the print, stage by stage.
 *
 *   u = D - b                                  net density
 *   D' = b + v(u)                              after the bath
 *   P = b + v_Q(u)                             as the paper sees it: Q acts on silver alone
 *   x = log10(10^(L - P) + f 10^(L - b))       enlarger flare: a part f of the light through clear film
 *   D_print = white + N(x)                     the paper
 *
 * L is the log exposure that the light without a negative gives, above the paper's threshold. Every
 * stage carries its gradient; they multiply.
 *
 * Sources: [JONES1920] the stages; additive light (derived). Deviations: none.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import {
  exposureForTone,
  lightnessFromDensity,
  lightnessGradient,
  paperResponse,
  type PaperResponse,
  type PrintPaper,
} from '../paper/index.ts';
import { densityAfterWithSlope, type TreatmentEffect } from '../treatment/index.ts';

/** How a negative is printed. Plain data. */
export interface NegativePrinting {
  /** Base + fog of the negative. */
  readonly baseFog: number;
  /** The bath; null for none. */
  readonly effect: TreatmentEffect | null;
  /** Q of the enlarger's light. */
  readonly callierFactor: number;
  /** Light that reaches the paper everywhere, as a part of that through clear film; 0 for none. */
  readonly enlargerFlare: number;
  readonly paper: PrintPaper;
  /** Density of the unexposed paper. */
  readonly paperWhiteDensity: number;
  /** L, log exposure without a negative, above the threshold. */
  readonly printLogExposure: number;
}

/** A tone of the negative on its way to the print. Gradients are by the quantity before. */
export interface NegativeTone {
  readonly negativeDensity: number;
  /** After the bath, by diffuse light. */
  readonly treatedDensity: number;
  /** As the paper sees it. */
  readonly printingDensity: number;
  /** Log exposure above the paper's threshold. */
  readonly paperLogExposure: number;
  readonly printDensity: number;
  /** CIE L*. */
  readonly lightness: number;
  readonly gradients: {
    /** d treated / d negative. */
    readonly treatment: number;
    /** d printing / d treated. */
    readonly light: number;
    /** - d log exposure / d printing density, in (0, 1]. */
    readonly enlargerFlare: number;
    /** d print density / d log exposure. */
    readonly paper: number;
    /** d L* / d print density, negative. */
    readonly lightness: number;
  };
}

/** Usual density of unexposed paper, where nothing was read. */
export const USUAL_PAPER_WHITE = 0.06;

/**
 * The tone that a density of the negative prints.
 *
 * @param printing - how it is printed
 * @param negativeDensity - gross, diffuse, before any bath
 * @throws InvalidArgumentError if a value is out of range
 */
export function printNegative(printing: NegativePrinting, negativeDensity: number): NegativeTone {
  if (!Number.isFinite(negativeDensity)) {
    throw new InvalidArgumentError('printNegative', 'negativeDensity', negativeDensity, 'finite');
  }
  return negativePrinter(printing)(negativeDensity);
}

/**
 * The same, made ready for many densities.
 *
 * @param printing - how the negative is printed
 * @returns the function from density to tone; its argument is not checked
 * @throws InvalidArgumentError if a value of `printing` is out of range
 */
export function negativePrinter(
  printing: NegativePrinting,
): (negativeDensity: number) => NegativeTone {
  checked(printing);
  const { baseFog, effect, paperWhiteDensity } = printing;
  const response = paperResponse(printing.paper);
  const onPaper = lightOnPaper(printing);
  return (negativeDensity) => {
    const silver = seenThrough(negativeDensity - baseFog, effect, 1);
    const { seen, image, logExposure } = onPaper(negativeDensity);
    const { netDensity, gradient } = response.tone(logExposure);
    const printDensity = paperWhiteDensity + netDensity;
    return {
      negativeDensity,
      treatedDensity: baseFog + silver.value,
      printingDensity: baseFog + seen.value,
      paperLogExposure: logExposure,
      printDensity,
      lightness: lightnessFromDensity(printDensity),
      gradients: {
        treatment: silver.slope,
        light: silver.slope === 0 ? printing.callierFactor : seen.slope / silver.slope,
        enlargerFlare: image,
        paper: gradient,
        lightness: lightnessGradient(printDensity),
      },
    };
  };
}

/**
 * Print density alone, for tables of many densities.
 *
 * @param printing - how the negative is printed
 * @returns the function from density of the negative to print density; its argument is not checked
 * @throws InvalidArgumentError if a value of `printing` is out of range
 */
export function printDensityOf(printing: NegativePrinting): (negativeDensity: number) => number {
  const { paperWhiteDensity, paper } = checked(printing);
  const response = paperResponse(paper);
  const onPaper = lightOnPaper(printing);
  return (negativeDensity) =>
    paperWhiteDensity + response.tone(onPaper(negativeDensity).logExposure).netDensity;
}

/** Light that reaches the paper under a density of the negative. */
function lightOnPaper(printing: NegativePrinting): (negativeDensity: number) => {
  /** Net density as the paper sees it. */
  readonly seen: { readonly value: number; readonly slope: number };
  /** Part of the light that makes the image; the rest is flare. */
  readonly image: number;
  readonly logExposure: number;
} {
  const { baseFog, effect, callierFactor, enlargerFlare, printLogExposure } = printing;
  return (negativeDensity) => {
    const seen = seenThrough(negativeDensity - baseFog, effect, callierFactor);
    const image = 10 ** -seen.value;
    const light = image + enlargerFlare;
    return {
      seen,
      image: image / light,
      logExposure: printLogExposure - baseFog + Math.log10(light),
    };
  };
}

/**
 * Log exposure without a negative that prints one density of the negative as wanted.
 *
 * @param printing - how the negative is printed; its `printLogExposure` does not count
 * @param aim - density of the negative (gross, diffuse, before any bath) and of the print
 * @returns L, above the threshold, or null where the paper does not reach the density
 * @throws InvalidArgumentError if a value is out of range, or the print density not above white
 */
export function printLogExposureFor(
  printing: Omit<NegativePrinting, 'printLogExposure'>,
  aim: { readonly negativeDensity: number; readonly printDensity: number },
): number | null {
  const ready = checked({ ...printing, printLogExposure: 0 });
  return logExposureForAim(ready, paperResponse(printing.paper), aim);
}

function logExposureForAim(
  printing: NegativePrinting,
  response: PaperResponse,
  aim: { readonly negativeDensity: number; readonly printDensity: number },
): number | null {
  const { baseFog, effect, callierFactor, enlargerFlare, paperWhiteDensity } = printing;
  const { negativeDensity, printDensity } = aim;
  if (!Number.isFinite(negativeDensity)) {
    throw new InvalidArgumentError(
      'printLogExposureFor',
      'negativeDensity',
      negativeDensity,
      'finite',
    );
  }
  if (!(printDensity > paperWhiteDensity)) {
    throw new OutOfDomainError('printLogExposureFor', 'printDensity', printDensity, [
      paperWhiteDensity,
      paperWhiteDensity + response.netMaximum,
    ]);
  }
  const above = exposureForTone(response, printDensity - paperWhiteDensity);
  if (above === null) return null;
  const seen = seenThrough(negativeDensity - baseFog, effect, callierFactor).value;
  return above + baseFog - Math.log10(10 ** -seen + enlargerFlare);
}

/** Net density after the bath as a light of factor Q sees it, with its slope. */
function seenThrough(
  u: number,
  effect: TreatmentEffect | null,
  callierFactor: number,
): { value: number; slope: number } {
  return effect === null
    ? { value: callierFactor * u, slope: callierFactor }
    : densityAfterWithSlope(u, effect, callierFactor);
}

function checked(printing: NegativePrinting): NegativePrinting {
  const limits: readonly (readonly [keyof NegativePrinting, number, number])[] = [
    ['baseFog', -0.1, 4],
    ['callierFactor', 0.5, 3],
    ['enlargerFlare', 0, 0.5],
    ['paperWhiteDensity', 0, 1],
    ['printLogExposure', -20, 20],
  ];
  for (const [name, low, high] of limits) {
    const value = printing[name];
    if (!(typeof value === 'number' && value >= low && value <= high)) {
      throw new InvalidArgumentError('printNegative', name, value, `from ${low} to ${high}`);
    }
  }
  return printing;
}
