/** Numbers without a point, as Gerber and drill files write them: the last digits are decimals, and zeros at one end are left out. */

export interface Digits {
  readonly whole: number
  readonly decimals: number
}

/**
 * @param text digits with or without a sign
 * @param keepsLeading those that are left out stand at the end, else in front
 */
export function digitsRead(text: string, { whole, decimals }: Digits, keepsLeading: boolean): number {
  const sign = text.startsWith('-') ? -1 : 1
  const bare = text.replace(/^[+-]/, '')
  return (sign * Number(keepsLeading ? bare.padEnd(whole + decimals, '0') : bare)) / 10 ** decimals
}
