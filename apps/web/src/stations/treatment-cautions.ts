/** The cautions of a process, each with its source: never folded away. */
import type { Caution } from '@wedgebook/data';
import { html, type TemplateResult } from 'lit';
import { sourceMark } from '../parts/notices.ts';
import { text } from '../text.ts';

/** @param id - of the heading, unique in its element */
export function cautionsTemplate(
  cautions: readonly Caution[],
  title: string,
  id = 'cautions',
): TemplateResult {
  return html`<aside class="cautions" aria-labelledby=${id}>
    <h3 id=${id}>${title}</h3>
    <ul>
      ${cautions.map(
        ({ severity, text: sentence, provenance }) =>
          html`<li>
            <b class="severity">${text.treatment.severity[severity]}</b> ${sentence}
            <span class="source">${sourceMark(provenance)}</span>
          </li>`,
      )}
    </ul>
  </aside>`;
}
