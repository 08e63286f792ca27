/** The science of Wedgebook. Pure functions on plain data. */
export * from './errors.ts';
export * from './estimate.ts';
export * from './warning.ts';
