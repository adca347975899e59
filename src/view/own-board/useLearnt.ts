/** What the labelled addresses of the edited board tell of its map, learnt in a worker. */
import { say } from '../../base/index.ts'
import { useEffect, useState } from 'react'
import type { LabelledAddress, LearntMap } from '../../board/index.ts'
import { calls } from '../../workers/contract.ts'
import { useDesk } from '../stores/hooks.ts'

export type Learnt =
  | { readonly state: 'none' }
  | { readonly state: 'waiting' }
  | { readonly state: 'failed'; readonly why: string }
  | { readonly state: 'learnt'; readonly map: LearntMap }

interface Answered {
  readonly rows: readonly LabelledAddress[]
  readonly learnt: Learnt
}

export function useLearnt(rows: readonly LabelledAddress[] | undefined): Learnt {
  const desk = useDesk()
  const [answered, setAnswered] = useState<Answered>()
  useEffect(() => {
    if (rows === undefined) return undefined
    const abort = new AbortController()
    const answer = (learnt: Learnt): void => setAnswered({ rows, learnt })
    desk.boards
      .call(calls.learnAddresses, { rows: [...rows] }, { signal: abort.signal })
      .then((result) =>
        answer(
          result.ok
            ? { state: 'learnt', map: result.value }
            : { state: 'failed', why: say('The labels could not be worked through.') },
        ),
      )
      .catch(() => {
        if (!abort.signal.aborted)
          answer({ state: 'failed', why: say('Learning stopped; change a label to try again.') })
      })
    return () => abort.abort()
  }, [desk, rows])
  if (rows === undefined) return { state: 'none' }
  return answered?.rows === rows ? answered.learnt : { state: 'waiting' }
}
