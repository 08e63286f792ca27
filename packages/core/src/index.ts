/** The science of Wedgebook. Pure functions on plain data. */
export * from './clock-time.ts';
export * from './errors.ts';
export * from './estimate.ts';
export * from './provenance.ts';
export * from './rounded-to-error.ts';
export * from './warning.ts';
export * from './readings/index.ts';
export * from './curve/index.ts';
export * from './film/index.ts';
export * from './fitting/index.ts';
export * from './scan/index.ts';
export * from './paper/index.ts';
export * from './treatment/index.ts';
export * from './printing/index.ts';
export * from './development/index.ts';
export * from './ways/index.ts';
