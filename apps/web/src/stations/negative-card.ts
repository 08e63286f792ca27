/**
 * The chosen negative: its name, the strip whose curve it lies on, and the readings on it.
 *
 * @fires wb-removed - the user took the negative out of the notebook
 */
import type { Negative, Spot } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import { choice, choiceOnly, noteEntry, textEntry } from '../parts/fields.ts';
import { focusAfter } from '../parts/focus-after.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { text } from '../text.ts';
import { newId } from '../worksheet/new-entries.ts';
import { shortest } from '../worksheet/parse-cell.ts';
import type { NumberField } from '../parts/number-field.ts';
import '../parts/number-field.ts';

const ROLES: readonly Spot['role'][] = ['shadow', 'highlight', 'other'];
const NEW_ROLES = ['shadow', 'highlight'] as const;

@customElement('wb-negative')
export class NegativeCard extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .fields {
        margin-top: 0.75rem;
      }
      ul {
        list-style: none;
        margin: 0.75rem 0 0;
        padding: 0;
        display: grid;
        gap: 1rem;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        gap: 0.4rem;
        align-items: flex-start;
      }
      li input {
        flex: 1 1 100%;
        min-width: 0;
      }
      @container (min-width: 30rem) {
        ul {
          gap: 0.4rem;
        }
        li input {
          flex: 1 1 8rem;
          max-width: 18rem;
        }
      }
      .note {
        margin-block: 0.75rem;
      }
      wb-number {
        --field-width: 5rem;
      }
      li wb-number {
        --field-width: 4.5rem;
      }
    `,
  ];

  private readonly app = new AppController(this, ({ document }, { bath }) => {
    const { negative, ends } = bath.view(
      document,
      document.plan.curveFamily,
      document.plan.targetGrade,
    );
    return { negative, ends, strips: document.strips };
  });

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    const negative = view?.negative ?? null;
    if (view === undefined || negative === null) return nothing;
    const { ends } = view;
    const strips = view.strips.filter(({ material }) => material === 'film');
    const has = (role: Spot['role']) => negative.spots.some((spot) => spot.role === role);
    return html`<div class="fields">
        ${textEntry({
          id: 'name',
          label: text.readings.name,
          value: negative.name,
          onType: (name) => {
            this.change(negative, { name }, 'name');
          },
        })}
        ${choice({
          id: 'strip',
          label: text.match.strip,
          selected: negative.stripId ?? '',
          options: [
            ['', text.match.noStrip],
            ...strips.map(({ id, name }): [string, string] => [id, name]),
          ],
          onChoose: (id) => {
            this.change(negative, { stripId: id === '' ? null : id });
          },
        })}
        <wb-number
          label=${text.match.baseFog}
          unit=${text.match.baseFogUnit(ends)}
          optional
          key=${`negative/${negative.id}/fog`}
          .value=${negative.baseFog}
          .min=${-0.5}
          .max=${6}
          .step=${0.01}
          .decimals=${3}
          @wb-value=${({ detail }: CustomEvent<number | null>) => {
            this.change(negative, { baseFog: detail }, 'fog');
          }}
        ></wb-number>
      </div>
      <ul aria-label=${text.match.spots}>
        ${repeat(
          negative.spots,
          ({ id }) => id,
          (spot) => this.spotTemplate(negative, spot),
        )}
      </ul>
      <div class="fields">
        ${NEW_ROLES.map((role) => this.newSpotTemplate(negative, role))}
        ${has('shadow') && has('highlight') ? nothing : this.rangeTemplate(negative)}
      </div>
      ${noteEntry({
        id: 'note',
        label: text.readings.note,
        value: negative.note,
        onType: (note) => {
          this.change(negative, { note }, 'note');
        },
      })}
      <button
        @click=${() => {
          this.app.app.store.dispatch({ type: 'negative/remove', id: negative.id });
          this.app.say(text.match.removed(negative.name));
          this.dispatchEvent(new CustomEvent('wb-removed'));
        }}
      >
        ${text.match.removeNegative}
      </button>`;
  }

  private spotTemplate(negative: Negative, spot: Spot): TemplateResult {
    const { store } = this.app.app;
    const change = (changes: Partial<Spot>, gesture: string) => {
      const { id } = spot;
      const mergeKey = `${gesture} ${id}`;
      store.dispatch({ type: 'spot/change', negativeId: negative.id, id, changes, mergeKey });
    };
    const onName = (event: Event) => {
      change({ name: (event.target as HTMLInputElement).value }, 'name');
    };
    const onRemove = ({ currentTarget }: Event) => {
      store.dispatch({ type: 'spot/remove', negativeId: negative.id, id: spot.id });
      this.app.say(text.match.removed(spot.name));
      void focusAfter(this, currentTarget, 'li button', '[data-role="shadow"]');
    };
    return html`<li>
      <input aria-label=${text.match.spotName} .value=${live(spot.name)} @input=${onName} />
      ${choiceOnly({
        id: `role-${spot.id}`,
        label: text.match.roleOf(spot.name),
        selected: spot.role,
        options: ROLES.map((role) => [role, text.match.roles[role]]),
        onChoose: (role) => {
          change({ role: role as Spot['role'] }, 'role');
        },
      })}
      <wb-number
        bare
        label=${text.match.densityOf(spot.name)}
        unit=${text.match.densityUnit}
        key=${`spot/${spot.id}`}
        .value=${spot.density}
        .min=${-0.5}
        .max=${6}
        .step=${0.01}
        .decimals=${3}
        .least=${2}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          change({ density: detail }, 'density');
        }}
      ></wb-number>
      <button aria-label=${text.match.removeSpot(spot.name)} @click=${onRemove}>
        ${text.match.remove}
      </button>
    </li>`;
  }

  private newSpotTemplate(negative: Negative, role: (typeof NEW_ROLES)[number]): TemplateResult {
    return html`<wb-number
      once
      optional
      data-role=${role}
      label=${text.match.add[role]}
      unit=${text.match.densityUnit}
      key=${`negative/${negative.id}/new-${role}`}
      .value=${null}
      .min=${-0.5}
      .max=${6}
      .step=${0.01}
      .decimals=${3}
      @wb-value=${({ detail }: CustomEvent<number | null>) => {
        if (detail === null) return;
        const spot: Spot = { id: newId(), name: text.match.roles[role], density: detail, role };
        this.app.app.store.dispatch({ type: 'spot/add', negativeId: negative.id, spot });
        this.app.say(text.match.spotAdded(spot.name, shortest(detail, 2, 3)));
      }}
    ></wb-number>`;
  }

  private rangeTemplate(negative: Negative): TemplateResult {
    return html`<wb-number
      label=${text.match.rangeOnly}
      unit=${text.match.densityUnit}
      optional
      key=${`negative/${negative.id}/range`}
      .value=${negative.densityRange ?? null}
      .min=${0.01}
      .max=${6}
      .step=${0.01}
      .decimals=${3}
      @wb-value=${({ detail }: CustomEvent<number | null>) => {
        this.change(negative, { densityRange: detail }, 'range');
      }}
    ></wb-number>`;
  }

  /** To the field of a new negative's first reading. */
  async focusNewSpot(): Promise<void> {
    await this.updateComplete;
    const field = this.renderRoot.querySelector<NumberField>('wb-number[data-role="shadow"]');
    await field?.updateComplete;
    field?.focus();
  }

  private change(negative: Negative, changes: Partial<Negative>, gesture?: string): void {
    const mergeKey = gesture === undefined ? {} : { mergeKey: `${gesture} ${negative.id}` };
    this.app.app.store.dispatch({ type: 'negative/change', id: negative.id, changes, ...mergeKey });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-negative': NegativeCard;
  }
}
