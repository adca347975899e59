/** Estimated amounts in the currency that the case names. */
import { roughMoney } from '../../base/index.ts'
import { usePresent } from './hooks.ts'

export function useRoughMoney(): (amount: number) => string {
  const currency = usePresent()?.handBack.currency
  return (amount) => roughMoney(amount, currency)
}
