/** Styles of taking readings from an instrument. */
import { css } from 'lit';

export const instrumentStyles = css`
  :host {
    padding-bottom: 0.75rem;
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem 1rem;
    align-items: center;
    margin: 0.6rem 0;
  }
  .row p {
    margin: 0;
  }
  label.check {
    display: inline-flex;
    gap: 0.5rem;
    align-items: center;
    min-height: 2.75rem;
    margin: 0;
  }
  .next {
    font-weight: 600;
  }
  fieldset {
    border: 0;
    padding: 0;
    margin: 1rem 0;
  }
  legend {
    padding: 0;
    font-weight: 600;
  }
  table {
    width: auto;
    margin-top: 0.5rem;
  }
  caption {
    text-align: start;
    color: var(--quiet);
    font-size: 0.875rem;
  }
  td {
    padding-inline-end: 1.5rem;
  }
  code {
    overflow-wrap: anywhere;
    white-space: pre-wrap;
  }
`;
