/** Styles that the parts of the development station share. */
import { css } from 'lit';
import { halves } from '../parts/halves.ts';

export const developmentStyles = css`
  ${halves}
  :host {
    container-type: inline-size;
  }
  .field {
    min-width: 0;
  }
  .settings wb-number {
    --field-width: 5rem;
  }
  wb-chart {
    margin-top: 1rem;
    max-width: 68rem;
  }
  /* Figures that belong together must not stand a window's width apart. */
  table,
  .sink {
    max-width: 60rem;
  }
  h4 {
    margin: 1rem 0 0.25rem;
    font-size: 1rem;
  }
  thead th {
    vertical-align: bottom;
  }
  thead .number {
    white-space: normal;
  }
  th[scope='row'] {
    min-width: 4.25rem;
  }
  td:not(.number),
  thead th:not(.number, :first-child) {
    padding-inline-start: 0.75rem;
  }
  td:last-child,
  th:last-child {
    padding-inline-end: 0;
  }
  .remark {
    display: block;
    font-weight: 400;
    font-size: 0.875rem;
    color: var(--quiet);
  }
  .out td {
    color: var(--quiet);
  }
  .normal th,
  .normal td {
    font-weight: 600;
  }
  .plan .time {
    font-size: 1.125rem;
  }
  .aim,
  .next {
    font-size: 1.0625rem;
  }
  .empty {
    border: 1px solid var(--frame);
    border-radius: 0.375rem;
    background: var(--surface);
    padding: 0.25rem 1rem 0.75rem;
  }
  .empty ol {
    padding-inline-start: 1.25rem;
    margin: 0.5rem 0 0;
    max-width: 68ch;
  }
  .empty li {
    margin-bottom: 0.4rem;
  }
  .sink {
    border: 1px solid var(--rule);
    border-radius: 0.375rem;
    background: var(--surface);
    padding: 0.25rem 1rem 1rem;
    margin-top: 1rem;
  }
  .sink th[scope='row'] {
    min-width: 0;
  }
  @container (max-width: 24rem) {
    .sink {
      padding-inline: 0.6rem;
    }
    .sink th,
    .sink td {
      padding-inline-end: 0.35rem;
    }
  }
  .sink caption {
    text-align: start;
    font-weight: 600;
    padding-bottom: 0.25rem;
  }
  .figures {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 12rem), 1fr));
    gap: 0.5rem 1.5rem;
    margin: 0.75rem 0;
  }
  .figures dt {
    color: var(--quiet);
    font-size: 0.875rem;
  }
  .figures dd {
    margin: 0;
    font-size: 1.125rem;
  }
  .or-bath th[scope='row'] {
    font-weight: 400;
    color: var(--quiet);
    width: 26%;
  }
  .or-bath td {
    width: 37%;
  }
  #measure {
    max-width: 100%;
  }
  #chosenMinutes {
    max-width: 34rem;
  }
`;
