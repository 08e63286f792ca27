export {
  fitSurface,
  type SurfaceFit,
  type SurfaceOptions,
  type SurfaceStrip,
} from './fit-surface.ts';
export { surfaceCurve, type SurfaceCurve } from './surface-curve.ts';
export type { DevelopmentSurface, LeftOutStrip } from './surface-model.ts';
