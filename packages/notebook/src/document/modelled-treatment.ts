/** Which treatments the model of the bath can be fitted to. */
import { MODELLED_PROCESS, type Treatment } from './document.ts';

/** A treatment by the modelled process, its bath known. */
export type ModelledTreatment = Treatment & {
  readonly process: typeof MODELLED_PROCESS;
  readonly partsWater: number;
  readonly minutes: number;
};

/** @returns the same object where its process is modelled and its bath known, else null */
export function modelledTreatment(treatment: Treatment | null): ModelledTreatment | null {
  return treatment !== null && isModelled(treatment) ? treatment : null;
}

function isModelled(treatment: Treatment): treatment is ModelledTreatment {
  const { process, partsWater, minutes } = treatment;
  return process === MODELLED_PROCESS && partsWater !== null && minutes !== null;
}
