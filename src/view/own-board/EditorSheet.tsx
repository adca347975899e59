/** The board drawn large, for mouse, finger and keys: parts are selected, dragged, nudged and turned on it. */
import { type KeyboardEvent, useEffect, useMemo, useRef } from 'react'
import { decimals, drawnMm, say, someOf } from '../../base/index.ts'
import { type Part, partKinds, type Rail } from '../../board/index.ts'
import type { Check } from './useCheck.ts'
import { groupTransform, panned, toScreen, type View, zoomed } from './camera.ts'
import {
  edit,
  type EditorStore,
  fitBoard,
  type HeldParts,
  nudge,
  partsOn,
  redo,
  seeSide,
  select,
  undo,
} from './editorStore.ts'
import styles from './sheet.module.css'
import { createSheetHand } from './sheetHand.ts'
import {
  BoardLayer,
  LaneLayer,
  PartsLayer,
  PointedLayer,
  PointsLayer,
  RefsLayer,
  RegionsLayer,
} from './SheetLayers.tsx'
import { pathOf, shapeOf } from './shapes.ts'
import { useEditor, useEditorStore } from './useEditor.ts'

export function EditorSheet({ check }: { readonly check: Check }) {
  const editor = useEditorStore()
  const hand = useMemo(() => createSheetHand(editor), [editor])
  const { session, selected, view, held, band, pointed, rail: railName, tool } = useEditor((state) => state)
  const { board } = session
  const box = useSheetSize(editor)
  const chosen = useMemo(() => new Set(selected), [selected])
  const rail = board.rails.find(({ name }) => name === railName)
  const ofRail = useMemo(() => partsOfRail(rail), [rail])
  const only = selected.length === 1 ? board.parts.find(({ ref }) => ref === selected[0]) : undefined
  const inRegions = held === undefined && only?.side === view.side && partKinds[only.kind].onBalls ? only : undefined
  return (
    <div className={styles.frame} ref={box}>
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- a drawing that is worked by hand and keys */}
      <svg
        className={styles.sheet}
        data-tool={tool}
        data-testid="editor-sheet"
        role="application"
        tabIndex={0}
        aria-label={say('Sheet of {name}, {side} side', { name: board.name, side: view.side })}
        aria-describedby="editor-sheet-keys"
        width={view.widthPx}
        height={view.heightPx}
        onPointerDown={hand.down}
        onPointerMove={hand.move}
        onPointerUp={hand.up}
        onPointerCancel={hand.lost}
        onWheel={hand.wheel}
        onKeyDown={(event) => onKey(editor, event)}
      >
        <g className={styles.drawn} transform={groupTransform(view)}>
          <BoardLayer board={board} />
          {check.faults === 0 && check.model !== undefined && <LaneLayer model={check.model} side={view.side} />}
          <PartsLayer
            parts={board.parts}
            side={view.side}
            selected={chosen}
            ofRail={ofRail}
            held={held !== undefined}
          />
          {held !== undefined && <HeldLayer parts={board.parts} held={held} />}
        </g>
        {inRegions !== undefined && <RegionsLayer board={board} part={inRegions} view={view} />}
        <RefsLayer parts={board.parts} view={view} selected={chosen} held={held !== undefined} above={inRegions?.ref} />
        {rail !== undefined && <PointsLayer rail={rail} view={view} />}
        {pointed !== undefined && (
          <PointedLayer board={board} refs={pointed.refs} points={pointed.points} view={view} />
        )}
        {held !== undefined && <Guides held={held} view={view} />}
        {band !== undefined && <path className={styles.band} d={bandPath(view, band)} />}
      </svg>
      <p className="visually-hidden" id="editor-sheet-keys">
        {say(
          'Arrows move what is selected by a step of the grid, with Shift by ten. R turns it left, Shift R right. F puts it on the other side. Delete takes it away. Control A selects all of this side, Escape nothing. Plus and minus zoom, 0 shows the whole board. The list of parts beside the sheet selects by keyboard.',
        )}
      </p>
      <p className={styles.status} role="status">
        {statusWords(selected, held)}
      </p>
    </div>
  )
}

function HeldLayer({ parts, held: { refs, byMm } }: { readonly parts: readonly Part[]; readonly held: HeldParts }) {
  return (
    <g transform={`translate(${byMm.x} ${byMm.y})`}>
      {parts
        .filter(({ ref }) => refs.includes(ref))
        .map((part) => (
          <g key={part.ref} className={styles.part} data-kind={part.kind} data-selected>
            <path d={shapeOf(part).body} />
            <path className={styles.corner} d={shapeOf(part).corner} />
          </g>
        ))}
    </g>
  )
}

function statusWords(selected: readonly string[], held: HeldParts | undefined): string {
  if (held !== undefined) {
    const lines = held.guides.map(({ ref }) => ref)
    const inLine = lines.length > 0 ? say(', in line with {someOf}', { someOf: someOf([...new Set(lines)]) }) : ''
    return `x ${signed(held.byMm.x)} mm, y ${signed(held.byMm.y)} mm${inLine}`
  }
  if (selected.length === 0) return say('Nothing selected')
  return selected.length <= 3
    ? say('{selected} selected', { selected: someOf(selected) })
    : say('{length, plural, one {# part} other {# parts}} selected', { length: selected.length })
}

const signed = (mm: number): string => `${mm >= 0 ? '+' : '−'}${decimals(Math.abs(mm), 2)}`

function partsOfRail(rail: Rail | undefined): ReadonlyMap<string, 'feeds' | 'makes'> {
  const parts = new Map<string, 'feeds' | 'makes'>()
  for (const ref of rail?.feeds ?? []) parts.set(ref, 'feeds')
  for (const ref of rail?.stages ?? []) parts.set(ref, 'makes')
  return parts
}

function useSheetSize(editor: EditorStore) {
  const box = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const element = box.current
    if (element === null) return undefined
    let wasFitted = false
    const take = (): void => {
      const { clientWidth: widthPx, clientHeight: heightPx } = element
      if (widthPx === 0 || heightPx === 0) return
      editor.setState(({ view }) => ({ view: { ...view, widthPx, heightPx } }))
      if (!wasFitted) fitBoard(editor)
      wasFitted = true
    }
    const watch = new ResizeObserver(take)
    watch.observe(element)
    take()
    return () => watch.disconnect()
  }, [editor])
  return box
}

function Guides({ held, view }: { readonly held: HeldParts; readonly view: View }) {
  return (
    <g className={styles.guides}>
      {held.guides.map(({ axis, atMm, ref }) => {
        const at = toScreen(view, { x: atMm, y: atMm })
        const line =
          axis === 'x'
            ? { x1: at.x, x2: at.x, y1: 0, y2: view.heightPx }
            : { y1: at.y, y2: at.y, x1: 0, x2: view.widthPx }
        return (
          <g key={axis}>
            <line {...line} />
            <text x={axis === 'x' ? at.x + 6 : 8} y={axis === 'x' ? 14 : at.y - 8} fontSize={12}>
              {ref} {drawnMm(atMm)}
            </text>
          </g>
        )
      })}
    </g>
  )
}

function bandPath(
  view: View,
  { minX, minY, maxX, maxY }: { minX: number; minY: number; maxX: number; maxY: number },
): string {
  return pathOf(
    [
      { x: minX, y: minY },
      { x: maxX, y: minY },
      { x: maxX, y: maxY },
      { x: minX, y: maxY },
    ].map((corner) => toScreen(view, corner)),
  )
}

const ways: Readonly<Record<string, { readonly x: number; readonly y: number }>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
}
const PAN_PX = 60

function onKey(editor: EditorStore, event: KeyboardEvent): void {
  if (!pressed(editor, event)) return
  event.preventDefault()
  event.stopPropagation()
}

/** @returns whether the key meant something here */
function pressed(editor: EditorStore, event: KeyboardEvent): boolean {
  const { selected, view } = editor.getState()
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key
  if (event.ctrlKey || event.metaKey) return command(editor, key, event.shiftKey)
  if (event.altKey) return false
  const way = ways[key]
  if (way !== undefined) {
    if (selected.length > 0) nudge(editor, way, event.shiftKey)
    else editor.setState({ view: panned(view, { x: -way.x * PAN_PX, y: way.y * PAN_PX }) })
    return true
  }
  if (key === '+' || key === '=') editor.setState({ view: zoomed(view, 1.25) })
  else if (key === '-') editor.setState({ view: zoomed(view, 0.8) })
  else if (key === '0') fitBoard(editor)
  else if (key === 'Escape' && selected.length > 0) select(editor, [])
  else if (selected.length === 0) return false
  else if (key === 'r') turnSelected(editor, event.shiftKey ? -90 : 90)
  else if (key === 'f') turnOver(editor)
  else if (key === 'Delete' || key === 'Backspace') edit(editor, { kind: 'remove', refs: [...selected] })
  else return false
  return true
}

function command(editor: EditorStore, key: string, shift: boolean): boolean {
  if (key === 'z') (shift ? redo : undo)(editor)
  else if (key === 'y') redo(editor)
  else if (key === 'a') {
    const { session, view } = editor.getState()
    select(
      editor,
      partsOn(session.board, view.side).map(({ ref }) => ref),
    )
  } else return false
  return true
}

/** As it looks: on the bottom, which is seen turned over, left is right. */
export function turnSelected(editor: EditorStore, byDeg: number): void {
  const { selected, view } = editor.getState()
  const sense = view.side === 'top' ? 1 : -1
  edit(editor, { kind: 'rotate', refs: [...selected], byDeg: byDeg * sense, about: 'middle' })
}

export function turnOver(editor: EditorStore): void {
  const { selected, session } = editor.getState()
  const first = session.board.parts.find(({ ref }) => ref === selected[0])
  if (first === undefined) return
  const to = first.side === 'top' ? 'bottom' : 'top'
  if (edit(editor, { kind: 'change-side', refs: [...selected], to })) seeSide(editor, to)
}
