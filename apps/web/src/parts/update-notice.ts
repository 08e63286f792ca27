/** The notice that a newer version of the app waits until it is asked for. */
import { html, type TemplateResult } from 'lit';
import { text } from '../text.ts';

/** @param update - writes what was typed, and changes to the newer version */
export function updateTemplate(update: () => Promise<void>): TemplateResult {
  return html`<div class="notice no-print" role="status">
    <p>${text.app.newer}</p>
    <button @click=${update}>${text.app.useNewer}</button>
  </div>`;
}
