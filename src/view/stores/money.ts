/** Estimated amounts in the currency that the case names, else in the shop's. */
import { roughMoney } from '../../base/index.ts'
import { currencyOf } from './currency.ts'
import { usePresent, useShopDetails } from './hooks.ts'

export const useCurrency = (): string => currencyOf(usePresent(), useShopDetails())

export function useRoughMoney(): (amount: number) => string {
  const currency = useCurrency()
  return (amount) => roughMoney(amount, currency)
}
