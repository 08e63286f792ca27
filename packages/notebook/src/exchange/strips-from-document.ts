/**
 * The strips of a notebook as a file of readings holds them. Absolute exposures are written as log
 * exposures, relative ones as tablet densities, so that the file means the same when it is read.
 */
import { warning, type Warning } from '@wedgebook/core';
import type { NotebookDocument, Paper, Strip } from '../document/document.ts';
import { isPossibleDensity, isPossibleLogExposure } from '../document/possible-reading.ts';
import { rowLogExposure, stripReadings } from '../document/strip-readings.ts';
import { figuresWarning, soundFigures } from '../document/sound-figures.ts';
import { tabletLookup, type TabletLookup } from '../document/tablet-lookup.ts';
import type { ReadingsStrip, StepReading } from './readings-strip.ts';

/** @returns strips in the order of the notebook, and what a file of readings cannot hold */
export function stripsFromDocument(written: NotebookDocument): {
  readonly strips: readonly ReadingsStrip[];
  readonly warnings: readonly Warning[];
} {
  const { document, replaced } = soundFigures(written);
  const tablets = tabletLookup(document);
  const { films, papers, negatives } = document;
  const warnings: Warning[] =
    films.length + papers.length + negatives.length > 0 ? [warning('strips-alone-exchanged')] : [];
  if (replaced.length > 0) warnings.push(figuresWarning(replaced));
  const taken = new Set<string>();
  const lights = lightsOfStrips(papers);
  const strips = document.strips.map((strip) => {
    const name = freeName(strip.name === '' ? strip.id : strip.name, taken);
    if (name !== strip.name) warnings.push(warning('strip-renamed', { strip: name }));
    taken.add(name);
    const film = films.find(({ id }) => id === strip.filmId)?.name ?? null;
    const written = {
      ...readingsStrip(strip, name, film, tablets),
      ...(lights.get(strip.id) ?? {}),
    };
    const { stepsWithoutExposure, impossible } = stripReadings(strip, tablets);
    const lost = stepsWithoutExposure.length;
    if (lost > 0) warnings.push(warning('steps-without-exposure', { strip: name, count: lost }));
    if (impossible > 0) {
      warnings.push(warning('readings-impossible', { strip: name, count: impossible }));
    }
    return written;
  });
  return { strips, warnings };
}

/** Setting and seconds of the strips that stand on a paper; a file has room for the first paper's. */
function lightsOfStrips(
  papers: readonly Paper[],
): ReadonlyMap<string, Pick<ReadingsStrip, 'setting' | 'softSeconds' | 'hardSeconds'>> {
  const lights = new Map<string, Pick<ReadingsStrip, 'setting' | 'softSeconds' | 'hardSeconds'>>();
  for (const { source } of papers) {
    if (source.kind !== 'strips') continue;
    for (const { stripId, setting, softSeconds, hardSeconds } of source.strips) {
      if (stripId === null || lights.has(stripId)) continue;
      lights.set(stripId, {
        ...(setting !== '' && { setting }),
        ...((softSeconds !== null || hardSeconds !== null) && { softSeconds, hardSeconds }),
      });
    }
  }
  return lights;
}

function freeName(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(name)) return name;
  let number = 2;
  while (taken.has(`${name} (${number})`)) number += 1;
  return `${name} (${number})`;
}

function readingsStrip(
  strip: Strip,
  name: string,
  film: string | null,
  tablets: TabletLookup,
): ReadingsStrip {
  const { development, treatment } = strip;
  const readings = strip.rows.flatMap((row): StepReading[] => {
    const logExposure = rowLogExposure(row, strip, tablets);
    const absolute = strip.exposure.kind === 'absolute';
    if (logExposure !== null && !isPossibleLogExposure(logExposure)) return [];
    const possible = row.densities.filter((each) => each === null || isPossibleDensity(each));
    const cells = row.densities.length === 0 ? [null] : possible;
    return cells.map((density) => ({
      step: row.step,
      tabletDensity: absolute || logExposure === null ? null : rounded(-logExposure),
      logExposure: absolute && logExposure !== null ? rounded(logExposure) : null,
      density,
      row: 0,
    }));
  });
  return {
    name,
    material: strip.material,
    channel: strip.channel,
    minutes: development?.minutes ?? null,
    celsius: development?.celsius ?? null,
    treatment: treatment?.process ?? null,
    partsWater: treatment?.partsWater ?? null,
    bathMinutes: treatment?.minutes ?? null,
    bathCelsius: treatment?.celsius ?? null,
    processedOn: strip.processedOn,
    control: strip.control,
    film,
    // A step without an exposure would be read back as base + fog.
    readings: readings.filter(
      ({ tabletDensity, logExposure }) => tabletDensity !== null || logExposure !== null,
    ),
    unexposedDensities: strip.unexposedDensities.filter(isPossibleDensity),
    unread: readings.filter(({ density }) => density === null).length,
    firstRow: 0,
    lastRow: 0,
    warnings: [],
    exposureStated: true,
  };
}

/** To a billionth: 0.4 - 0.05 must be written 0.35. */
const rounded = (value: number): number => Math.round(value * 1e9) / 1e9 || 0;
