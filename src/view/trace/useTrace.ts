/** The state of tracing a board: photos, what was shown in them, the work with its undo, and the questions to the worker. */
import { useRef, useState } from 'react'
import { applied, decimals, type Fault, type Homography, type Point, type Result, say } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import { arrayBetween, type Snapped, type TracedPart, turnedAsUsual, turnedOver } from '../../trace/index.ts'
import { isAbort } from '../../workers/client.ts'
import { calls, type StraightTrace } from '../../workers/contract.ts'
import { useDesk } from '../stores/hooks.ts'
import { bodyWanted, firstWanted, type Wanted } from './bodies.ts'
import { boxAround, type KnownBy, type Shown, type Sizes } from './frame.ts'
import {
  changed,
  emptyHistory,
  partAt,
  redone,
  selected,
  undone,
  type Work,
  type WorkHistory,
  withParts,
  withStrike,
} from './work.ts'

/** What a click on the straight photo means. */
export type Tool = 'place' | 'tab' | 'edge' | 'row' | 'holes'

interface Busy {
  readonly words: string
  readonly share: number | undefined
  readonly cancel: () => void
}

/** How much is shown around the board, below as much as a tab reaches, in mm. */
const AROUND_MM = { beside: 3, below: 14 }

const newId = (): string => crypto.randomUUID()

/** Everything that the page of tracing knows and does. */
export function useTrace() {
  const desk = useDesk()
  const [shown, setShown] = useState<Partial<Record<Side, Shown>>>({})
  const [straight, setStraight] = useState<
    Partial<Record<Side, StraightTrace & { readonly under?: Homography | undefined }>>
  >({})
  const [side, setSide] = useState<Side>('top')
  const [knownBy, setKnownBy] = useState<KnownBy>('board')
  const [known, setKnown] = useState<Sizes>({ widthMm: 267, heightMm: 103 })
  const [board, setBoard] = useState<Sizes>({ widthMm: 267, heightMm: 103 })
  const [history, setHistory] = useState<WorkHistory>(emptyHistory)
  const [wanted, setWanted] = useState<Wanted>(firstWanted)
  const [tool, setTool] = useState<Tool>('place')
  const [toolPoints, setToolPoints] = useState<readonly Point[]>([])
  const [rowCount, setRowCount] = useState(4)
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const [said, setSaid] = useState('')
  const [busy, setBusy] = useState<Busy>()
  const asked = useRef(0)

  /** Asks the worker; what it refuses stands as a fault, a later question overtakes an earlier one. */
  async function ask<T>(words: string, question: (options: Asking) => Promise<Result<T>>): Promise<T | undefined> {
    const number = ++asked.current
    const abort = new AbortController()
    const show = (share: number | undefined): void => setBusy({ words, share, cancel: () => abort.abort() })
    show(undefined)
    setFaults([])
    try {
      const result = await question({
        signal: abort.signal,
        onProgress: ({ share }) => number === asked.current && show(share),
      })
      if (result.ok) return result.value
      setFaults(result.faults)
      setSaid('')
    } catch (reason) {
      if (!isAbort(reason)) setFaults([{ path: words, found: String(reason), expected: say('an answer') }])
    } finally {
      if (number === asked.current) setBusy(undefined)
    }
    return undefined
  }

  const change = (next: (work: Work) => Work): void => {
    setSaid('')
    setHistory((before) => changed(before, next(before.present)))
  }

  async function takePhoto(file: File): Promise<void> {
    const photo = await ask(say('Reading the photo'), (options) => desk.reader.call(calls.openTrace, { file }, options))
    if (photo === undefined) return
    setShown((before) => ({ ...before, [side]: { file, photo, points: [] } }))
    setStraight((before) => ({ ...before, [side]: undefined }))
  }

  const setPoints = (points: readonly Point[]): void =>
    setShown((before) => {
      const here = before[side]
      return here === undefined ? before : { ...before, [side]: { ...here, points } }
    })

  async function straighten(under?: Homography): Promise<void> {
    const here = shown[side]
    if (here === undefined) return
    const [from = { x: 0, y: 0 }, to = from] = here.points
    const whole = knownBy === 'board' || side === 'bottom'
    const size = whole ? known : board
    const turned = side === 'bottom' ? (under ?? [-1, 0, size.widthMm, 0, 1, 0, 0, 0, 1]) : undefined
    const made = await ask(say('Straightening the photo'), (options) =>
      desk.reader.call(
        calls.straightenTrace,
        {
          file: here.file,
          known:
            knownBy === 'distance'
              ? { from, to, distanceMm: known.widthMm }
              : { corners: here.points, widthMm: known.widthMm, heightMm: known.heightMm, edges: knownBy },
          box: whole
            ? {
                minX: -AROUND_MM.beside,
                minY: -AROUND_MM.below,
                maxX: size.widthMm + AROUND_MM.beside,
                maxY: size.heightMm + AROUND_MM.beside,
              }
            : boxAround(here, known, knownBy),
          under: turned,
        },
        options,
      ),
    )
    if (made === undefined) return
    if (whole) setBoard(known)
    setStraight((before) => ({ ...before, [side]: { ...made, under: turned } }))
    setSaid(
      made.missMm === undefined
        ? say('Straight by the points alone: no edge could be followed. Places are as good as the clicks.')
        : say('Straight: the edges lie within {missMm} mm.', { missMm: decimals(made.missMm, 2) }),
    )
  }

  async function place(at: Point): Promise<void> {
    const here = straight[side]
    if (here === undefined) return
    const body = bodyWanted(wanted)
    const found = await ask(say('Looking for its edges'), (options) =>
      desk.reader.call(
        calls.snapTrace,
        { raster: here.raster, wish: { body, click: at, camera: here.camera } },
        options,
      ),
    )
    if (found === undefined) return
    change((work) => withParts(work, [partOf(found, work.parts)]))
    setSaid(say('{value} % of its outline lies on edges.', { value: Math.round(found.fit * 100) }))
  }

  function partOf(found: Pick<Snapped, 'at' | 'rotationDeg'>, parts: readonly TracedPart[]): TracedPart {
    const core = parts.find(({ kind }) => kind === 'core')
    const memory = wanted.kind === 'memory'
    const rotationDeg =
      memory && core !== undefined
        ? turnedAsUsual(wanted.package, found.at, found.rotationDeg, core.at)
        : found.rotationDeg
    return {
      id: newId(),
      kind: wanted.kind,
      side,
      at: found.at,
      rotationDeg,
      body: bodyWanted(wanted),
      ...(memory ? { package: wanted.package } : {}),
    }
  }

  async function findLikes(first: TracedPart): Promise<void> {
    const here = straight[first.side]
    if (here === undefined) return
    const wish = { body: first.body, first, camera: here.camera }
    const likes = await ask(say('Looking for its likes'), (options) =>
      desk.reader.call(calls.likesTrace, { raster: here.raster, wish }, options),
    )
    if (likes === undefined) return
    const { parts } = history.present
    const fresh = likes.filter(({ at }) => partAt(parts, first.side, at) === undefined)
    const proposals = fresh.map(({ at, rotationDeg, score }) => ({
      part: { ...first, id: newId(), at, rotationDeg },
      score,
      struckOut: false,
    }))
    change((work) => ({ ...work, proposals }))
    setSaid(
      proposals.length === 0
        ? say('Nothing else looks like it.')
        : say('{length} look like it. Click those that don’t belong.', { length: proposals.length }),
    )
  }

  /** A click on the straight photo, in mm of the board. */
  async function clickOnBoard(at: Point): Promise<void> {
    const { parts, proposals, selectedId } = history.present
    if (tool === 'tab') return collect(at, 2, ([a = at, b = at]) => change((work) => ({ ...work, tab: [a, b] })))
    if (tool === 'edge') return collect(at, 2, ([a = at, b = at]) => change((work) => ({ ...work, edge: [a, b] })))
    if (tool === 'holes') return layUnder(at)
    if (tool === 'row') {
      const first = parts.find(({ id }) => id === selectedId)
      setTool('place')
      if (first === undefined) return
      const rest = arrayBetween(first.at, at, rowCount).slice(1)
      return change((work) =>
        withParts(
          work,
          rest.map((middle) => ({ ...first, id: newId(), at: middle })),
        ),
      )
    }
    const proposed = partAt(
      proposals.map(({ part }) => part),
      side,
      at,
    )
    if (proposed !== undefined) return change((work) => withStrike(work, proposed.id))
    const there = partAt(
      parts.filter(({ kind }) => kind === wanted.kind),
      side,
      at,
    )
    if (there !== undefined) return setHistory((before) => selected(before, there.id))
    return place(at)
  }

  function collect(at: Point, count: number, done: (points: readonly Point[]) => void): void {
    const points = [...toolPoints, at]
    setToolPoints(points.length < count ? points : [])
    if (points.length < count) return
    setTool('place')
    done(points)
  }

  /** Two holes on the top, then the same two on the bottom: the bottom is laid under anew. */
  function layUnder(at: Point): void {
    const bottom = straight.bottom?.under
    if (bottom === undefined) return
    if (toolPoints.length === 1) setSide('bottom')
    collect(at, 4, ([one = at, other = at, oneBelow = at, otherBelow = at]) => {
      const under = turnedOver({ one, other }, { one: applied(bottom, oneBelow), other: applied(bottom, otherBelow) })
      if (under !== undefined) void straighten(under)
    })
  }

  return {
    shown: shown[side],
    straight: straight[side],
    hasBottom: straight.bottom !== undefined,
    hasTop: straight.top !== undefined,
    side,
    setSide,
    knownBy,
    setKnownBy,
    known,
    setKnown,
    board,
    setBoard,
    history,
    work: history.present,
    change,
    select: (id: string | undefined) => setHistory((before) => selected(before, id)),
    undo: () => setHistory(undone),
    redo: () => setHistory(redone),
    wanted,
    setWanted,
    tool,
    toolPoints,
    setTool: (next: Tool) => {
      setToolPoints([])
      setTool(next)
    },
    rowCount,
    setRowCount,
    faults,
    said,
    missMm: straight[side]?.missMm,
    busy,
    takePhoto,
    setPoints,
    straighten,
    again: () => setStraight((before) => ({ ...before, [side]: undefined })),
    findLikes,
    clickOnBoard,
  }
}

export type TraceState = ReturnType<typeof useTrace>

interface Asking {
  readonly signal: AbortSignal
  readonly onProgress: (progress: { readonly share?: number | undefined }) => void
}
