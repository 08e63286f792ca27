export {
  contrastAt,
  minutesForContrast,
  type ContrastBasis,
  type ContrastFamily,
  type ContrastForm,
  type ContrastModel,
  type MinutesForContrast,
} from './contrast-model.ts';
export {
  developmentPlan,
  requiredGradient,
  type DevelopmentPlanOptions,
  type PlannedDevelopment,
} from './development-plan.ts';
export {
  contrastForPaper,
  type ContrastForPaper,
  type SceneAndPaper,
} from './contrast-for-paper.ts';
export {
  developmentOrBath,
  type Commitment,
  type DevelopmentOrBath,
  type DevelopmentOrBathOptions,
} from './development-or-bath.ts';
export {
  contrastFactor,
  developmentTimeRatio,
  firstOrderFromThreeTimes,
  firstOrderFromTwoTimes,
  type FirstOrderConstants,
} from './first-order-closed-forms.ts';
export { minutesForFactor, type MinutesForFactor } from './minutes-for-factor.ts';
export {
  fitContrastModel,
  type ContrastModelFit,
  type ContrastModelOptions,
  type ContrastReading,
} from './fit-contrast-model.ts';
export {
  exposureIndexAt,
  fitSpeedModel,
  speedPointAt,
  type ExposureIndex,
  type SpeedModel,
  type SpeedReading,
} from './speed-against-time.ts';
export { activationEnergy, coefficientFromFactor, equivalentMinutes } from './temperature.ts';
export {
  fitSurface,
  surfaceCurve,
  type DevelopmentSurface,
  type LeftOutStrip,
  type SurfaceCurve,
  type SurfaceFit,
  type SurfaceOptions,
  type SurfaceStrip,
} from './surface/index.ts';
export {
  driftChart,
  type DriftChart,
  type DriftOptions,
  type DriftPoint,
  type DriftSignal,
} from './drift-chart.ts';
export {
  nextDevelopment,
  type DevelopmentTrial,
  type NextDevelopment,
  type NextDevelopmentOptions,
} from './next-development.ts';
export { zoneLadder, zoneName, type ZoneLadderOptions, type ZoneRung } from './zone-ladder.ts';
