/**
 * The transfer curve of sRGB, by which most pictures of eight bits and every screen count light.
 *
 *   V = 12.92 Y                    where Y <= 0.0031308
 *   V = 1.055 Y^(1/2.4) - 0.055    above
 *
 * Sources: [IEC61966] the curve and its inverse. Deviations: none.
 */

/**
 * Value of a light. Inner loops call it: the argument is not checked.
 *
 * @param light - linear, 0 to 1
 * @returns value of each channel, 0 to 1
 * @source [IEC61966]
 * @example
 * srgbFromLight(0.18).toFixed(4); // => '0.4614'
 */
export function srgbFromLight(light: number): number {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
}

/**
 * Light of a value. Inner loops call it: the argument is not checked.
 *
 * @param value - of a channel, 0 to 1
 * @returns linear light, 0 to 1
 * @source [IEC61966]
 * @example
 * lightFromSrgb(0.46135).toFixed(4); // => '0.1800'
 */
export function lightFromSrgb(value: number): number {
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}
