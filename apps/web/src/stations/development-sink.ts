/**
 * The table for the wall above the sink: times of every development by temperature. On paper it is
 * a sheet of its own, in large type, black on white whatever theme the screen has.
 */
import { formatClock } from '@wedgebook/charts';
import { equivalentMinutes, type PlannedDevelopment } from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DevelopmentView } from '../state/derive-development.ts';
import { development as text, named } from '../text/development.ts';
import { text as page } from '../text.ts';

/** Degrees beside the planned temperature, as far as a developer is used at them. */
const BESIDE = [-2, 0, 2, 4] as const;

/** The table: one row a development, one column a temperature. */
export function sinkTable(view: DevelopmentView, invented: boolean): TemplateResult {
  const { settings, plan, laws, films, filmId, aim } = view;
  const t = text.sink;
  const coefficient = laws.model?.temperatureCoefficient.value ?? 1;
  const temperatures = BESIDE.map((degrees) => settings.celsius + degrees).filter(
    (celsius) => celsius >= 0 && celsius <= 60,
  );
  const shortest = developmentDefaults.shortestMinutes.value;
  const clock = ({ minutes }: PlannedDevelopment, celsius: number): string => {
    if (minutes === null) return page.none;
    const time = equivalentMinutes(minutes.value, settings.celsius, celsius, coefficient);
    const short = time < shortest;
    return `${formatClock(time).replace(' min', '')}${short ? '*' : ''}`;
  };
  const untried = ({ warnings }: PlannedDevelopment): boolean =>
    warnings.some(({ code }) => code === 'near-contrast-limit' || code === 'time-extrapolated');
  const rows = plan.map((row) => ({
    row,
    name: `${named(row.development)}${untried(row) ? '†' : ''}`,
    clocks: temperatures.map((celsius) => clock(row, celsius)),
  }));
  const facts = [
    ...(aim === null ? [] : [t.by(settings.measure, aim.contrast)]),
    t.coefficient(coefficient),
    t.rounded,
    ...(rows.some(({ clocks }) => clocks.some((time) => time.endsWith('*')))
      ? [t.short(shortest)]
      : []),
    ...(plan.some(untried) ? [t.untried] : []),
    ...(laws.model?.basis === 'scaled-guess' ? [t.guess] : []),
    ...(invented ? [t.invented] : []),
  ];
  const film = films.find(([id]) => id === filmId)?.[1] ?? '';
  return html`<div class="scroll" tabindex="0" role="group" aria-label=${t.title}>
      <table class="sink-table">
        <caption>
          ${film}
        </caption>
        <thead>
          <tr>
            <th scope="col"><span class="visually-hidden">${text.plan.development}</span></th>
            <th scope="col" class="number">${text.exposureIndex}</th>
            ${temperatures.map((celsius) => html`<th scope="col" class="number">${t.at(celsius)}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            ({ row, name, clocks }) =>
              html`<tr>
                <th scope="row">${name}</th>
                <td class="number">${row.exposureIndex?.arithmetic ?? page.none}</td>
                ${clocks.map((time) => html`<td class="number">${time}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
    <p class="quiet small">${facts.join('; ')}.</p>`;
}

/** Prints the table alone: the page steps aside while the sheet is there. */
export function printSinkTable(view: DevelopmentView, invented: boolean): void {
  const sheet = new SinkSheet();
  sheet.view = view;
  sheet.invented = invented;
  document.body.append(sheet);
  document.documentElement.dataset['print'] = 'sheet';
  const clear = () => {
    sheet.remove();
    delete document.documentElement.dataset['print'];
  };
  addEventListener('afterprint', clear, { once: true });
  void sheet.updateComplete.then(() => {
    print();
  });
}

@customElement('wb-sink-sheet')
class SinkSheet extends LitElement {
  static override styles = css`
    :host {
      display: none;
    }
    @media print {
      :host {
        display: block;
        color: #000;
        background: #fff;
        font-size: 18pt;
      }
    }
    table {
      border-collapse: collapse;
      width: 100%;
      font-variant-numeric: tabular-nums;
    }
    caption {
      text-align: start;
      font-weight: 600;
      font-size: 1.2em;
      padding-bottom: 0.5em;
    }
    th,
    td {
      text-align: start;
      border-bottom: 1px solid #000;
      padding: 0.35em 0.5em 0.35em 0;
    }
    thead th {
      font-weight: 400;
      font-size: 0.7em;
    }
    .number {
      text-align: end;
    }
    p {
      font-size: 0.6em;
    }
    .visually-hidden {
      display: none;
    }
  `;

  @property({ attribute: false }) view!: DevelopmentView;
  @property({ attribute: false }) invented = false;

  protected override render(): TemplateResult {
    return sinkTable(this.view, this.invented);
  }
}
