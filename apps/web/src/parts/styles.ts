/** Styles that every element shares; colours come from the theme's custom properties. */
import { css } from 'lit';

export const sharedStyles = css`
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  :host {
    display: block;
    color: var(--text);
  }
  :host([hidden]) {
    display: none;
  }
  h2,
  h3 {
    font-family:
      'Iowan Old Style', 'Palatino Linotype', Palatino, 'Liberation Serif', Georgia, serif;
    font-weight: 600;
    line-height: 1.2;
    margin: 0;
    text-wrap: balance;
  }
  h2 {
    font-size: 1.6rem;
  }
  h3 {
    font-size: 1.15rem;
    margin: 1.5rem 0 0.5rem;
  }
  p {
    margin: 0.4rem 0;
    max-width: 68ch;
  }
  .quiet {
    color: var(--quiet);
  }
  .small {
    font-size: 0.875rem;
  }
  button,
  select,
  input,
  textarea {
    font: inherit;
    color: inherit;
  }
  button {
    min-height: 2.75rem;
    padding: 0.4rem 0.9rem;
    border: 1px solid var(--frame);
    border-radius: 0.375rem;
    background: var(--surface);
    cursor: pointer;
    touch-action: manipulation;
  }
  button:hover:not(:disabled) {
    border-color: var(--text);
  }
  button:disabled {
    color: var(--quiet);
    border-style: dashed;
    cursor: default;
  }
  button.primary {
    background: var(--accent);
    border-color: var(--accent);
    color: var(--on-accent);
    font-weight: 600;
  }
  :where(select, input:not([type='range'], [type='checkbox'], [type='radio']), textarea) {
    min-height: 2.75rem;
    padding: 0.35rem 0.6rem;
    border: 1px solid var(--frame);
    border-radius: 0.375rem;
    background: var(--surface);
    max-width: 100%;
  }
  /* Own controls: the browser's would show white or grey where the theme has only red. */
  input[type='checkbox'],
  input[type='radio'] {
    appearance: none;
    flex: none;
    display: inline-grid;
    place-content: center;
    width: 1.5rem;
    height: 1.5rem;
    margin: 0;
    border: 2px solid var(--frame);
    border-radius: 0.25rem;
    background: var(--surface);
    cursor: pointer;
  }
  input[type='radio'] {
    border-radius: 50%;
  }
  input[type='checkbox']:checked::before {
    content: '✓';
    font-weight: 700;
    line-height: 1;
  }
  input[type='radio']:checked {
    border-color: var(--text);
  }
  input[type='radio']:checked::before {
    content: '';
    width: 0.75rem;
    height: 0.75rem;
    border-radius: 50%;
    background: var(--text);
  }
  /* The browser's own picture of a calendar would show grey where the theme has only red. */
  ::-webkit-calendar-picker-indicator {
    display: none;
  }
  input[type='range'] {
    appearance: none;
    background: transparent;
    height: 2.75rem;
    margin: 0;
    cursor: pointer;
  }
  input[type='range']::-webkit-slider-runnable-track {
    height: 4px;
    border-radius: 2px;
    background: var(--frame);
  }
  input[type='range']::-moz-range-track {
    height: 4px;
    border-radius: 2px;
    background: var(--frame);
  }
  input[type='range']::-webkit-slider-thumb {
    appearance: none;
    width: 1.6rem;
    height: 1.6rem;
    margin-top: calc(2px - 0.8rem);
    border: 2px solid var(--surface);
    border-radius: 50%;
    background: var(--accent);
  }
  input[type='range']::-moz-range-thumb {
    width: 1.6rem;
    height: 1.6rem;
    border: 2px solid var(--surface);
    border-radius: 50%;
    background: var(--accent);
  }
  option {
    background: var(--surface);
    color: var(--text);
  }
  ::placeholder {
    color: var(--quiet);
    opacity: 1;
  }
  ::selection {
    background: var(--accent);
    color: var(--on-accent);
  }
  :focus-visible {
    outline: 3px solid var(--accent);
    outline-offset: 2px;
  }
  [aria-invalid='true'] {
    border: 2px solid var(--wrong) !important;
  }
  .wrong {
    color: var(--wrong);
  }
  .wrong::before {
    content: '✕ ';
  }
  label,
  .label {
    display: block;
    font-size: 0.875rem;
    color: var(--quiet);
    margin-bottom: 0.2rem;
  }
  .fields {
    display: flex;
    flex-wrap: wrap;
    gap: 0.75rem 1rem;
    align-items: end;
  }
  /* Grows with what is typed: a handle to drag would shine grey where the theme has only red. */
  textarea {
    resize: none;
    field-sizing: content;
  }
  .note textarea {
    width: 100%;
    max-width: 40rem;
  }
  .fields > * {
    min-width: 0;
  }
  table {
    border-collapse: collapse;
    width: 100%;
  }
  th,
  td {
    text-align: start;
    vertical-align: baseline;
    padding: 0.4rem 0.6rem 0.4rem 0;
    border-bottom: 1px solid var(--rule);
  }
  th {
    font-weight: 600;
  }
  thead th {
    font-size: 0.875rem;
    font-weight: 400;
    color: var(--quiet);
    border-bottom-color: var(--frame);
  }
  .number {
    text-align: end;
    white-space: nowrap;
  }
  .scroll {
    /* Words that are heard and not seen stand free of the flow: they are cut off with the rest. */
    position: relative;
    overflow-x: auto;
    max-width: 100%;
  }
  /* A shade at the side where columns are cut off. */
  .framed {
    --cover: var(--behind, var(--ground));
    --shade: color-mix(in srgb, var(--frame) 55%, transparent);
    background:
      linear-gradient(to right, var(--cover) 40%, transparent) 0 0 / 2rem 100% no-repeat local,
      linear-gradient(to left, var(--cover) 40%, transparent) 100% 0 / 2rem 100% no-repeat local,
      linear-gradient(to right, var(--shade), transparent) 0 0 / 0.6rem 100% no-repeat,
      linear-gradient(to left, var(--shade), transparent) 100% 0 / 0.6rem 100% no-repeat;
  }
  summary {
    cursor: pointer;
    min-height: 2.75rem;
    padding: 0.6rem 0;
    display: list-item;
  }
  .station {
    border-top: 1px solid var(--frame);
    padding: 1.25rem 0 2.25rem;
  }
  .head {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1rem;
    align-items: baseline;
    justify-content: space-between;
    margin-bottom: 0.75rem;
  }
  .says {
    margin: 0;
    color: var(--quiet);
  }
  .visually-hidden {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  @media print {
    button,
    .no-print {
      display: none !important;
    }
    .framed {
      background: none;
    }
    .station {
      break-inside: avoid;
    }
  }
`;
