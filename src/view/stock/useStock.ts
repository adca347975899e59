/** The shop's stock, read anew whenever it changes, here or in another tab. */
import { useEffect, useState } from 'react'
import type { Fault } from '../../base/index.ts'
import type { KeptStock } from '../shelf/stockShelf.ts'
import { useDesk } from '../stores/hooks.ts'

export interface StockState {
  /** Undefined while it is read for the first time. */
  readonly stock: KeptStock | undefined
  readonly faults: readonly Fault[]
}

export function useStock(): StockState {
  const { caseShelf } = useDesk()
  const [state, setState] = useState<StockState>({ stock: undefined, faults: [] })
  useEffect(() => {
    let asked = 0
    const read = async (): Promise<void> => {
      const number = ++asked
      const kept = await caseShelf.stock.list()
      if (number !== asked) return
      if (kept.ok) setState({ stock: kept.value, faults: [] })
      else setState((before) => ({ ...before, faults: kept.faults }))
    }
    void read()
    const end = caseShelf.subscribe(({ kind }) => {
      if (kind === 'stock' || kind === 'opened') void read()
    })
    return () => {
      asked = -1
      end()
    }
  }, [caseShelf])
  return state
}
