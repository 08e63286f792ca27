/**
 * Trial pieces: a frame read at two spots before and after the bath. In the notebook it is a pair of
 * strips whose steps are the spots; the numbers of the spots stand where exposures would, since they
 * only pair the readings.
 */
import type { Strip } from '@wedgebook/notebook';
import type { WorkDocument } from '../state/work.ts';
import { text } from '../text.ts';
import { freshName, newId } from './new-entries.ts';

/** Spots of a trial piece. */
const TRIAL_SPOTS = 2;

/** A trial piece as its two strips. */
export interface Trial {
  readonly before: Strip;
  readonly after: Strip;
}

/** An unread trial piece for the bath of the plan. */
export function newTrial(document: WorkDocument): Trial {
  const { partsWater, minutes, celsius, process } = document.plan;
  const name = freshName(
    text.trials.name,
    trialsOf(document.strips).map(({ before }) => before),
  );
  const before: Strip = {
    id: newId(),
    name,
    material: 'film',
    filmId: document.films[0]?.id ?? null,
    channel: 'visual',
    tabletId: null,
    exposure: { kind: 'relative' },
    rows: Array.from({ length: TRIAL_SPOTS }, (_, spot) => ({
      step: spot + 1,
      logExposure: spot,
      densities: [null],
    })),
    unexposedDensities: [],
    development: null,
    processedOn: null,
    control: false,
    treatment: null,
    note: text.trials.note,
  };
  const treatment = { process, partsWater, minutes, celsius, untreatedStripId: before.id };
  return {
    before,
    after: { ...before, id: newId(), name: text.trials.toned(name), treatment },
  };
}

/** The strips that are trial pieces; they are read beside the bath, not on a sheet of steps. */
export function trialStripIds(strips: readonly Strip[]): ReadonlySet<string> {
  return new Set(trialsOf(strips).flatMap(({ before, after }) => [before.id, after.id]));
}

/** The trial pieces of a notebook: toned strips of at most three spots, with their partners. */
export function trialsOf(strips: readonly Strip[]): Trial[] {
  const byId = new Map(strips.map((strip) => [strip.id, strip]));
  return strips.flatMap((after) => {
    const partner = byId.get(after.treatment?.untreatedStripId ?? '');
    const isTrial = partner !== undefined && isShort(after) && isShort(partner);
    return isTrial ? [{ before: partner, after }] : [];
  });
}

const isShort = ({ tabletId, rows }: Strip): boolean =>
  tabletId === null && rows.length > 0 && rows.length <= TRIAL_SPOTS + 1;
