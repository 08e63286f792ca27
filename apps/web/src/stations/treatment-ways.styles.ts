/** Styles of the ways out. */
import { css } from 'lit';

export const waysStyles = css`
  :host {
    margin-top: 1.5rem;
  }
  wb-number {
    --field-width: 5rem;
    flex: 0 1 15rem;
  }
  #ways-order {
    width: 18rem;
  }
  wb-chart {
    margin-top: 1rem;
  }
  .ways th[scope='row'] {
    min-width: 9rem;
  }
  .ways thead th {
    vertical-align: bottom;
    min-width: 4.2rem;
    white-space: normal;
  }
  .ways .on {
    min-width: 7.5rem;
    font-size: 0.875rem;
  }
  /* What a way loses and what can hurt in it stand under its figures. */
  .ways tr:has(+ .costs-row) > * {
    border-bottom: 0;
  }
  .ways .costs-row td {
    font-size: 0.875rem;
    padding-top: 0;
  }
  .ways .costs-row b {
    font-weight: 600;
  }
  /* Where seven columns have no room, every way is a block and every figure says its name. */
  @container (max-width: 42rem) {
    .ways,
    .ways tbody,
    .ways tr,
    .ways th[scope='row'],
    .ways td {
      display: block;
    }
    .ways thead {
      display: none;
    }
    .ways tr {
      padding: 0.6rem 0 0;
    }
    .ways tr.costs-row {
      border-bottom: 1px solid var(--frame);
      padding: 0 0 0.6rem;
    }
    .ways .costs-row td {
      display: block;
    }
    .ways th[scope='row'],
    .ways td {
      border: 0;
      padding: 0.1rem 0;
    }
    .ways td {
      display: grid;
      grid-template-columns: minmax(8rem, 12rem) 1fr;
      gap: 0.75rem;
      text-align: start;
      white-space: normal;
    }
    .ways td::before {
      content: attr(data-name);
      color: var(--quiet);
      font-size: 0.875rem;
    }
    .ways td .detail {
      display: inline;
      margin-inline-start: 0.5rem;
    }
  }
  .detail {
    display: block;
    font-weight: 400;
    font-size: 0.875rem;
    color: var(--quiet);
  }
  .costs {
    margin: 0;
  }
  .costs dt {
    font-weight: 600;
    margin-top: 0.6rem;
  }
  .costs dd {
    margin: 0;
    max-width: 72ch;
  }
`;
