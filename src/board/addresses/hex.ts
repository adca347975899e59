/** Addresses and masks as people write them. */

/** @param value a whole number, not negative; `0x1f400` */
export const hexOf = (value: number): string => `0x${value.toString(16)}`
