/** The currency that amounts are told in: the case's own, else the shop's. */
import type { Case, ShopDetails } from '../../case/index.ts'

export const currencyOf = (
  present: Pick<Case, 'handBack'> | undefined,
  { currency }: Pick<ShopDetails, 'currency'>,
): string => {
  const own = present?.handBack.currency ?? ''
  return own === '' ? currency : own
}
