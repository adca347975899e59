/** The board check while the board is edited: at once what is quick, and what the whole board tells once the hand rests. */
import { useDeferredValue, useEffect, useMemo, useState } from 'react'
import { joined, millimetres, say, sayFault } from '../../base/index.ts'
import {
  applyEdit,
  type BoardDescription,
  boardFaults,
  type BoardModel,
  boardRemarks,
  type FaultPlace,
  loadBoard,
  overlapsOf,
  placeOfFault,
} from '../../board/index.ts'
import type { HeldParts } from './editorStore.ts'

export interface CheckLine {
  /** A fault keeps the board from being kept; a remark is for the eye. */
  readonly tone: 'fault' | 'remark'
  readonly words: string
  readonly place: FaultPlace
}

export interface Check {
  readonly lines: readonly CheckLine[]
  readonly faults: number
  /** As it was last sound; undefined until it was. */
  readonly model: BoardModel | undefined
}

const RESTS_MS = 200
const MOST_OVERLAPS = 40

/** @param held what the hand holds counts as where it would come to rest */
export function useCheck(board: BoardDescription, held: HeldParts | undefined): Check {
  const would = useDeferredValue(held)
  const now = useMemo(() => boardAs(board, would), [board, would])
  const quick = useMemo(() => [...faultLines(now), ...overlapLines(now)], [now])
  const rested = useRested(board)
  const lines = useMemo(() => [...quick, ...(rested?.remarks ?? [])], [quick, rested])
  return { lines, faults: quick.filter(({ tone }) => tone === 'fault').length, model: rested?.model }
}

export function boardAs(board: BoardDescription, held: HeldParts | undefined): BoardDescription {
  if (held === undefined) return board
  const moved = applyEdit(board, { kind: 'move', refs: [...held.refs], byMm: held.byMm })
  return moved.ok ? moved.value : board
}

const faultLines = (board: BoardDescription): CheckLine[] =>
  boardFaults(board).map((fault) => {
    const place = placeOfFault(board, fault.path)
    return { tone: 'fault', words: sayFault({ ...fault, path: place.words }), place }
  })

const overlapLines = (board: BoardDescription): CheckLine[] =>
  overlapsOf(board)
    .slice(0, MOST_OVERLAPS)
    .map(({ refs, byMm }) => ({
      tone: 'remark',
      words: say('{one} and {other} stand in one another by {byMm}.', {
        one: refs[0],
        other: refs[1],
        byMm: millimetres(byMm),
      }),
      place: { refs, points: [], words: joined(refs) },
    }))

interface Rested {
  readonly model: BoardModel
  readonly remarks: readonly CheckLine[]
}

function useRested(board: BoardDescription): Rested | undefined {
  const [rested, setRested] = useState<Rested>()
  useEffect(() => {
    const timer = setTimeout(() => {
      const loaded = loadBoard(board)
      if (!loaded.ok) return
      const remarks = boardRemarks(loaded.value).map(
        (words): CheckLine => ({ tone: 'remark', words, place: placeOfWords(board, words) }),
      )
      setRested({ model: loaded.value, remarks })
    }, RESTS_MS)
    return () => clearTimeout(timer)
  }, [board])
  return rested
}

/** The parts and the rail that a sentence names. */
function placeOfWords(board: BoardDescription, sentence: string): FaultPlace {
  const words = new Set(sentence.split(/[\s,;:.()]+/))
  const refs = board.parts.flatMap(({ ref }) => (words.has(ref) ? [ref] : []))
  const rail = board.rails.find(({ name }) => words.has(name))?.name
  return { refs, points: [], words: sentence, ...(rail === undefined ? {} : { rail }) }
}
