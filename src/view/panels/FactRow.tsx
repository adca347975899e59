/** One named fact, for a list of facts. */
import type { ReactNode } from 'react'

export function FactRow({ name, value }: { readonly name: string; readonly value: ReactNode }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </>
  )
}
