/**
 * A notebook from the strips of a file.
 *
 * A strip that was written by tablet density gets a tablet: a built-in one where the densities are
 * its own, else one made from the strip where the steps count up from 1 without a gap. Otherwise
 * the rows carry their log exposures. Paper strips that tell their setting or their seconds of soft and
 * hard light make one paper.
 */
import { warning, type Warning } from '@wedgebook/core';
import { nominalTablets } from '@wedgebook/data';
import {
  MODELLED_PROCESS,
  type NotebookDocument,
  type Paper,
  type PaperStrip,
  type Strip,
  type StripRow,
  type Tablet,
  type Treatment,
} from '../document/document.ts';
import { emptyDocument } from '../document/empty-document.ts';
import { builtInTablets } from '../document/tablet-lookup.ts';
import type { ReadingsStrip, StepReading } from './readings-strip.ts';
import { untreatedPartners, type ExposedStrip } from './untreated-partners.ts';

export interface DocumentFromStripsOptions {
  readonly title?: string;
  /** Whether written log exposures are log10 of lux-seconds; so unless given. */
  readonly logExposure?: 'absolute' | 'relative';
  /** log10 of the lux-seconds without the tablet, for strips written by tablet density. */
  readonly sourceLogExposure?: number;
  /** The tablet of strips that give steps alone: a built-in one. */
  readonly tabletId?: string;
  /** Makes an id; called once for each entry. */
  readonly makeId: (kind: 'strip' | 'tablet' | 'paper') => string;
  /** Name of the paper that strips with settings make. */
  readonly paperName?: string;
}

const USUAL_CELSIUS = 20;

/** A notebook that takes its strips one by one, and holds none of their densities. */
export interface DocumentDraft {
  /** @returns the strip as the notebook has it; which untreated strip it belongs to is told last */
  readonly add: (strip: ReadingsStrip) => Strip;
  readonly end: () => {
    /** The notebook without its strips. */
    readonly document: NotebookDocument;
    /** The same strip with its untreated strip. */
    readonly paired: (strip: Strip) => Strip;
    /** What had to be assumed or noted. */
    readonly warnings: readonly Warning[];
  };
}

/** @returns a notebook to be given the strips of a file, in their order */
export function documentDraft(options: DocumentFromStripsOptions): DocumentDraft {
  const warnings: Warning[] = [];
  const tablets: Tablet[] = [];
  const papers: PaperStrip[] = [];
  const exposed: (ExposedStrip & { readonly id: string })[] = [];
  const treated = new Map<string, ExposedStrip>();
  const sharedExposures = new Map<string, readonly number[]>();
  return {
    add: (strip) => {
      const made = notebookStrip(strip, options, tablets, warnings);
      const { name, material, channel, minutes, celsius, treatment } = strip;
      const facts = { name, material, channel, minutes, celsius, treatment };
      const own = {
        strip: facts,
        id: made.id,
        logExposures: shared(exposuresOf(strip), sharedExposures),
      };
      exposed.push(own);
      if (made.treatment !== null) treated.set(made.id, own);
      papers.push(...paperStripOf(strip, made.id));
      return made;
    },
    end: () => {
      const empty = emptyDocument(options.title);
      return {
        document: { ...empty, tablets, papers: papersOf(papers, options) },
        paired: (strip) => {
          const own = treated.get(strip.id);
          if (strip.treatment === null || own === undefined) return strip;
          const [partner] = untreatedPartners(own, exposed);
          const untreatedStripId = partner?.id ?? null;
          return { ...strip, treatment: { ...strip.treatment, untreatedStripId } };
        },
        warnings,
      };
    },
  };
}

/**
 * @param strips - as read from a file
 * @returns a notebook with strips, their tablets and the paper that they make, and what had to be assumed or noted
 */
export function documentFromStrips(
  strips: readonly ReadingsStrip[],
  options: DocumentFromStripsOptions,
): { readonly document: NotebookDocument; readonly warnings: readonly Warning[] } {
  const draft = documentDraft(options);
  const made = strips.map(draft.add);
  const { document, paired, warnings } = draft.end();
  return { document: { ...document, strips: made.map(paired) }, warnings };
}

/** Log exposure of each reading, or what stands for it among strips of one tablet. */
const exposuresOf = ({ readings }: ReadingsStrip): readonly number[] =>
  readings.flatMap(({ logExposure, tabletDensity, step }) => {
    const written = logExposure ?? (tabletDensity === null ? null : -tabletDensity);
    return written ?? step ?? [];
  });

/** The same list for strips of the same tablet. */
function shared(
  exposures: readonly number[],
  known: Map<string, readonly number[]>,
): readonly number[] {
  const key = exposures.join();
  const before = known.get(key);
  if (before !== undefined) return before;
  known.set(key, exposures);
  return exposures;
}

/** A strip that tells under which light it was printed, as a part of its paper. */
function paperStripOf(strip: ReadingsStrip, stripId: string): PaperStrip[] {
  const { setting = null, softSeconds = null, hardSeconds = null } = strip;
  if (setting === null && softSeconds === null && hardSeconds === null) return [];
  return [{ stripId, setting: setting ?? '', softSeconds, hardSeconds }];
}

/** The paper of such strips; none where there are none. */
function papersOf(
  entries: readonly PaperStrip[],
  { makeId, paperName, title }: DocumentFromStripsOptions,
): readonly Paper[] {
  if (entries.length === 0) return [];
  return [
    {
      id: makeId('paper'),
      name: paperName ?? title ?? '',
      source: { kind: 'strips', strips: entries },
      dryDownPercent: null,
      safelightMinutes: null,
      note: '',
    },
  ];
}

function notebookStrip(
  strip: ReadingsStrip,
  options: DocumentFromStripsOptions,
  tablets: Tablet[],
  warnings: Warning[],
): Strip {
  const { name, minutes, celsius } = strip;
  const byTablet = strip.readings.every(({ logExposure }) => logExposure === null);
  const tabletId = byTablet ? tabletOf(strip, options, tablets) : null;
  if (minutes !== null && celsius === null) {
    warnings.push(
      warning('development-temperature-assumed', { strip: name, celsius: USUAL_CELSIUS }),
    );
  }
  return {
    id: options.makeId('strip'),
    name,
    material: strip.material ?? (hasLight(strip) ? 'paper' : 'film'),
    filmId: null,
    channel: strip.channel ?? 'visual',
    tabletId,
    exposure: exposureOf(byTablet, tabletId, options),
    rows: rowsOf(strip.readings, byTablet && tabletId === null, options.sourceLogExposure ?? 0),
    unexposedDensities: strip.unexposedDensities,
    development:
      minutes === null || minutes === 0 ? null : { minutes, celsius: celsius ?? USUAL_CELSIUS },
    processedOn: strip.processedOn ?? null,
    control: strip.control ?? false,
    treatment: treatmentOf(strip, warnings),
    note: '',
  };
}

/** Only paper is printed at a setting or under two lights. */
const hasLight = ({ setting, softSeconds, hardSeconds }: ReadingsStrip): boolean =>
  [setting, softSeconds, hardSeconds].some((each) => each !== null && each !== undefined);

function exposureOf(
  byTablet: boolean,
  tabletId: string | null,
  { logExposure, sourceLogExposure }: DocumentFromStripsOptions,
): Strip['exposure'] {
  const absolute = byTablet ? sourceLogExposure !== undefined : logExposure !== 'relative';
  if (!absolute) return { kind: 'relative' };
  return {
    kind: 'absolute',
    sourceLogExposure: tabletId === null ? null : (sourceLogExposure ?? null),
  };
}

/** Readings of one step in one row; without step numbers, one row for each exposure. */
function rowsOf(
  readings: readonly StepReading[],
  exposuresFromTablet: boolean,
  source: number,
): readonly StripRow[] {
  const rows = new Map<
    string,
    { step: number; logExposure: number | null; densities: (number | null)[] }
  >();
  for (const { step, logExposure, tabletDensity, density } of readings) {
    const key = `${step ?? ''}|${logExposure ?? ''}|${tabletDensity ?? ''}`;
    const fromTablet =
      exposuresFromTablet && tabletDensity !== null ? source - tabletDensity || 0 : null;
    let row = rows.get(key);
    if (row === undefined) {
      row = { step: step ?? rows.size + 1, logExposure: logExposure ?? fromTablet, densities: [] };
      rows.set(key, row);
    }
    row.densities.push(density);
  }
  return [...rows.values()];
}

/** The tablet of a strip, made where need be; null where the rows must carry the exposures. */
function tabletOf(
  { readings, name }: ReadingsStrip,
  { tabletId, makeId }: DocumentFromStripsOptions,
  tablets: Tablet[],
): string | null {
  if (readings.every(({ tabletDensity }) => tabletDensity === null)) return tabletId ?? null;
  const densities = densitiesByStep(readings);
  if (densities === null) return null;
  const known = [
    ...nominalTablets.map(({ id }) => ({ id, densities: builtInTablets(id) ?? [] })),
    ...tablets,
  ].find((tablet) =>
    densities.every(
      (density, index) => Math.abs(density - (tablet.densities[index] ?? NaN)) < 1e-9,
    ),
  );
  if (known !== undefined) return known.id;
  const tablet: Tablet = {
    id: makeId('tablet'),
    name: `${densities.length} steps of strip ${name}`,
    densities,
    kind: 'calibrated',
    note: '',
  };
  tablets.push(tablet);
  return tablet.id;
}

/** Tablet density of step 1, 2, ...; null with gaps, without numbers or with contradictions. */
function densitiesByStep(readings: readonly StepReading[]): readonly number[] | null {
  const bySteps = new Map<number, number>();
  for (const { step, tabletDensity } of readings) {
    if (step === null || tabletDensity === null) return null;
    if ((bySteps.get(step) ?? tabletDensity) !== tabletDensity) return null;
    bySteps.set(step, tabletDensity);
  }
  const densities = Array.from({ length: bySteps.size }, (_, index) => bySteps.get(index + 1));
  return densities.every((density) => density !== undefined) ? densities : null;
}

function treatmentOf(strip: ReadingsStrip, warnings: Warning[]): Treatment | null {
  const { name, treatment, partsWater, bathMinutes, bathCelsius } = strip;
  if (treatment === null) return null;
  if (treatment !== MODELLED_PROCESS) {
    warnings.push(warning('treatment-not-modelled', { strip: name, process: treatment }));
  } else if (partsWater === null || bathMinutes === null) {
    warnings.push(warning('bath-incomplete', { strip: name }));
  }
  if (bathCelsius === null) {
    warnings.push(warning('bath-temperature-assumed', { strip: name, celsius: USUAL_CELSIUS }));
  }
  return {
    process: treatment,
    partsWater,
    minutes: bathMinutes,
    celsius: bathCelsius ?? USUAL_CELSIUS,
    untreatedStripId: null,
  };
}
