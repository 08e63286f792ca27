/** The development time whose test would narrow the plan most. */
import { formatNumber } from '@wedgebook/charts';
import { html, type TemplateResult } from 'lit';
import { framedTable, headRow } from '../parts/framed-table.ts';
import type { DevelopmentView } from '../state/derive-development.ts';
import { development as text } from '../text/development.ts';

const SHOWN = 6;

export function nextTemplate({ next, laws, timed }: DevelopmentView): TemplateResult {
  const t = text.next;
  const first = timed[0]?.development.minutes;
  const sentence =
    next !== null
      ? t.says(next)
      : laws.model?.basis === 'scaled-guess' && first !== undefined
        ? t.guess(first < 8 ? 1.8 * first : first / 1.8)
        : t.none;
  return html`<h3>${t.title}</h3>
    <p class="next">${sentence}</p>
    ${
      next === null
        ? ''
        : html`<details>
            <summary>${t.table}</summary>
            ${framedTable({
              label: t.table,
              head: headRow([], [text.minutes, t.expected, t.errorAfter]),
              body: next.trials.slice(0, SHOWN).map(
                ({ minutes, expectedContrast, errorAfter }) =>
                  html`<tr>
                    <td class="number">${formatNumber(minutes, 2)}</td>
                    <td class="number">${formatNumber(expectedContrast, 2)}</td>
                    <td class="number">${formatNumber(60 * errorAfter, 0)}</td>
                  </tr>`,
              ),
            })}
            <p class="quiet small">${t.hint}</p>
          </details>`
    }`;
}
