/** Number fields of the development plan, each with the limits that its figure has. */
import type { DevelopmentPlan } from '@wedgebook/notebook';
import { html, type LitElement, type TemplateResult } from 'lit';
import { PLAN_LIMITS, type PlanFigure } from '../state/derive-development.ts';
import '../parts/number-field.ts';

/** A change that the station makes to the plan; changes of one gesture are one step of undo. */
export interface PlanChange {
  readonly changes: Partial<DevelopmentPlan>;
  readonly gesture?: string;
}

/** Fires a change of the plan from an element. */
export function firePlan(
  element: LitElement,
  changes: Partial<DevelopmentPlan>,
  gesture?: string,
): void {
  const detail: PlanChange = { changes, ...(gesture !== undefined && { gesture }) };
  element.dispatchEvent(new CustomEvent('wb-plan', { detail }));
}

export interface PlanField {
  readonly label: string;
  readonly value: number | null;
  readonly unit?: string;
  readonly step: number;
  readonly decimals?: number;
  readonly optional?: boolean;
  readonly slider?: readonly [number, number];
}

/** Key under which an entry that cannot be read is kept. */
export function fieldKey(name: PlanFigure): string {
  return `development/${name}`;
}

/** The field of a figure; what is typed is fired from `element` as a change of the plan. */
export function planField(
  element: LitElement,
  name: PlanFigure,
  { label, value, unit = '', step, decimals = 3, optional, slider }: PlanField,
): TemplateResult {
  const [min, max] = PLAN_LIMITS[name];
  return html`<wb-number
    id=${name}
    label=${label}
    unit=${unit}
    key=${fieldKey(name)}
    ?optional=${optional ?? false}
    .value=${value}
    .min=${min}
    .max=${max}
    .step=${step}
    .decimals=${decimals}
    .slider=${slider ?? null}
    @wb-value=${({ detail }: CustomEvent<number | null>) => {
      firePlan(element, { [name]: detail }, name);
    }}
  ></wb-number>`;
}
