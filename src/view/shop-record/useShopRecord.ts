/** All that the page shows, read anew whenever the shelf changes, here or in another tab. */
import { useEffect, useState } from 'react'
import type { Fault } from '../../base/index.ts'
import { countCards, type ShopRecord } from '../../rehearsal/index.ts'
import type { ClosedCards, RecordChoice } from '../shelf/ownRecord.ts'
import { useDesk } from '../stores/hooks.ts'

export interface ShownRecord {
  readonly closed: ClosedCards
  readonly choice: RecordChoice
  readonly record: ShopRecord
}

export interface RecordState {
  /** Undefined while it is read for the first time. */
  readonly shown: ShownRecord | undefined
  readonly faults: readonly Fault[]
}

export function useShopRecord(): RecordState {
  const desk = useDesk()
  const { caseShelf } = desk
  const [state, setState] = useState<RecordState>({ shown: undefined, faults: [] })
  useEffect(() => {
    let asked = 0
    const read = async (): Promise<void> => {
      const number = ++asked
      const [closed, choice] = await Promise.all([caseShelf.closedCards(), caseShelf.recordChoice()])
      if (number !== asked) return
      if (!closed.ok) return setState((before) => ({ ...before, faults: closed.faults }))
      if (!choice.ok) return setState((before) => ({ ...before, faults: choice.faults }))
      const record = { own: countCards(closed.value.cards), pools: choice.value.pools }
      setState({ shown: { closed: closed.value, choice: choice.value, record }, faults: [] })
    }
    // what was entered last at the desk counts too
    void desk.saving.getState().saveNow().then(read)
    const end = caseShelf.subscribe(() => void read())
    return () => {
      asked = -1
      end()
    }
  }, [desk, caseShelf])
  return state
}
