/** Trial pieces: frames read at two spots before and after a bath, each with the gain it tells. */
import type { TreatedGain } from '@wedgebook/core';
import type { Command, Strip } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { focusAfter } from '../parts/focus-after.ts';
import { estimate, noticeStyles } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { cellKey } from '../state/work.ts';
import { text } from '../text.ts';
import { newTrial, trialsOf, type Trial } from '../worksheet/new-trial.ts';
import '../parts/number-field.ts';

@customElement('wb-trials')
export class TrialPieces extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      .trials {
        display: grid;
        gap: 1rem 1.5rem;
        grid-template-columns: repeat(auto-fill, minmax(min(100%, 19rem), 1fr));
      }
      fieldset {
        border: 1px solid var(--frame);
        border-radius: 0.375rem;
        padding: 0.25rem 1rem 0.75rem;
        margin: 0;
        min-width: 0;
      }
      legend {
        font-weight: 600;
        padding: 0 0.4rem;
      }
      wb-number {
        --field-width: 4.5rem;
      }
      td,
      th {
        padding: 0.2rem 0.5rem 0.2rem 0;
        border: 0;
      }
      th[scope='row'] {
        font-weight: 400;
      }
      .fields {
        margin-top: 0.5rem;
        gap: 0.25rem 1rem;
      }
    `,
  ];

  private readonly app = new AppController(this, ({ document }, { bath }) => ({
    strips: document.strips,
    model: bath.model(document, document.plan.curveFamily),
  }));

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const t = text.trials;
    const trials = trialsOf(view.strips);
    const { treated } = view.model;
    return html`<h3>${t.title}</h3>
      <p>${t.says} ${t.nextStep(view.model)}</p>
      <div class="trials">
        ${repeat(
          trials,
          ({ after }) => after.id,
          (trial) =>
            this.trialTemplate(
              trial,
              treated.find(({ strip }) => strip === trial.after.name),
            ),
        )}
      </div>
      <p><button id="add-trial" @click=${this.add}>${t.add}</button></p>
      <p class="quiet small">${t.cautions}</p>`;
  }

  private trialTemplate(trial: Trial, found: TreatedGain | undefined): TemplateResult {
    const t = text.trials;
    const { before, after } = trial;
    const { name, rows } = before;
    return html`<fieldset data-trial=${after.id}>
      <legend>${name}</legend>
      <table>
        <caption class="visually-hidden">
          ${t.table(name)}
        </caption>
        <thead>
          <tr>
            <th scope="col">${t.spot}</th>
            <th scope="col">${t.before}</th>
            <th scope="col">${t.after}</th>
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            (_, row) =>
              html`<tr>
                <th scope="row">${t.spotName(row)}</th>
                <td>${this.spotTemplate(before, row, t.before)}</td>
                <td>${this.spotTemplate(after, row, t.after)}</td>
              </tr>`,
          )}
          <tr>
            <th scope="row">${t.baseFog}</th>
            <td>${this.fogTemplate(before, t.before)}</td>
            <td>${this.fogTemplate(after, t.after)}</td>
          </tr>
        </tbody>
      </table>
      ${this.bathTemplate(after)}
      <p class="gain">
        ${found === undefined ? html`<span class="quiet">${t.noGain}</span>` : html`${t.gain} ×${estimate(found.gain, 3)}`}
      </p>
      <button
        class="remove"
        @click=${({ currentTarget }: Event) => {
          this.removeTrial(trial);
          this.app.say(text.match.removed(name));
          void focusAfter(this, currentTarget, '.remove', '#add-trial');
        }}
      >
        ${t.remove(name)}
      </button>
    </fieldset>`;
  }

  private spotTemplate(strip: Strip, row: number, when: string): TemplateResult {
    const { cell, spotName } = text.trials;
    return this.densityTemplate(
      cell(spotName(row), when),
      cellKey(strip.id, row, 'trial'),
      strip.rows[row]?.densities[0] ?? null,
      (value) => ({
        type: 'rows/set-cell',
        stripId: strip.id,
        row,
        column: { kind: 'density', replicate: 0 },
        value,
      }),
    );
  }

  private fogTemplate(strip: Strip, when: string): TemplateResult {
    const { cell, baseFog } = text.trials;
    return this.densityTemplate(
      cell(baseFog, when),
      cellKey(strip.id, -1, 'trial'),
      strip.unexposedDensities[0] ?? null,
      (value) => ({
        type: 'strip/change',
        id: strip.id,
        changes: { unexposedDensities: value === null ? [] : [value] },
      }),
    );
  }

  private densityTemplate(
    label: string,
    key: string,
    value: number | null,
    commandOf: (value: number | null) => Command,
  ): TemplateResult {
    return html`<wb-number
      bare
      optional
      label=${label}
      key=${key}
      .value=${value}
      .min=${-0.5}
      .max=${6}
      .step=${0.01}
      .decimals=${3}
      @wb-value=${({ detail }: CustomEvent<number | null>) => {
        this.app.app.store.dispatch({ ...commandOf(detail), mergeKey: key });
      }}
    ></wb-number>`;
  }

  private bathTemplate(after: Strip): TemplateResult | typeof nothing {
    const { treatment } = after;
    if (treatment === null) return nothing;
    const t = text.treatment;
    const field = (
      name: 'partsWater' | 'minutes' | 'celsius',
      label: string,
      { lead = '', unit = '', max = 1000 },
    ): TemplateResult => {
      const key = cellKey(after.id, -2, name);
      return html`<wb-number
        label=${label}
        lead=${lead}
        unit=${unit}
        key=${key}
        .value=${treatment[name]}
        .min=${0}
        .max=${max}
        .step=${0.5}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          this.app.app.store.dispatch({
            type: 'strip/change',
            id: after.id,
            changes: { treatment: { ...treatment, [name]: detail } },
            mergeKey: key,
          });
        }}
      ></wb-number>`;
    };
    return html`<div class="fields" role="group" aria-label=${text.trials.bath}>
      ${field('partsWater', t.dilution, { lead: '1+' })}
      ${field('minutes', t.minutes, { unit: 'min' })}
      ${field('celsius', t.temperature, { unit: '°C', max: 60 })}
    </div>`;
  }

  private readonly add = (): void => {
    const { store } = this.app.app;
    const { before, after } = newTrial(store.state.document);
    store.dispatch({
      type: 'several',
      commands: [
        { type: 'strip/add', entry: before },
        { type: 'strip/add', entry: after },
      ],
    });
  };

  private removeTrial({ before, after }: Trial): void {
    this.app.app.store.dispatch({
      type: 'several',
      commands: [
        { type: 'strip/remove', id: after.id },
        { type: 'strip/remove', id: before.id },
      ],
    });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-trials': TrialPieces;
  }
}
