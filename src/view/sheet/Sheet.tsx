/** The drawn board. Panning, zooming and hovering redraw canvases without rendering React. */
import { say } from '../../base/index.ts'
import { useEffect, useId, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { useStore } from 'zustand'
import { themes } from '../look/tokens.ts'
import type { SheetContext } from './context.ts'
import { Hand } from './hand.ts'
import { createHandStore } from './handStore.ts'
import { listenToHand } from './listen.ts'
import { Overview } from './Overview.tsx'
import { PaneView } from './PaneView.tsx'
import type { SheetProps } from './props.ts'
import { panesOf } from './pure/camera.ts'
import { type Isotherm, isothermsOf } from './pure/isotherms.ts'
import { loadView } from '../../case/index.ts'
import { proofRegions } from './pure/proofRegions.ts'
import { type Ring, ringsOf } from '../../spill/index.ts'
import { buildScene } from './pure/scene.ts'
import { SpokenPart } from './SpokenPart.tsx'
import { washImage } from './wash.ts'
import './sheet.css'

const KEYS_HELP = say(
  'Arrow keys move the view, plus and minus zoom, F shows the whole board, T turns it over. Enter steps onto the parts: then Tab and the arrow keys go from part to part, Enter selects, Escape leaves. A selected mark moves with the arrow keys.',
)

const NO_RINGS: readonly Ring[] = []
const NO_ISOTHERMS: readonly Isotherm[] = []

export function Sheet(props: SheetProps) {
  const { model, camera, overlays, tallyParts, reach, suspects, heat, proofLanes, theme, marks, tool } = props
  const help = useId()
  const element = useRef<HTMLDivElement>(null)
  const scene = useMemo(() => buildScene(model), [model])
  const latest = useRef({ props, scene })
  useLayoutEffect(() => {
    latest.current = { props, scene }
  })
  const [context] = useState<SheetContext>(() => ({
    props: () => latest.current.props,
    scene: () => latest.current.scene,
    hand: createHandStore(),
  }))
  const [hand] = useState(() => new Hand(context))

  useEffect(() => {
    const box = element.current
    return box === null ? undefined : listenToHand(box, hand, context)
  }, [hand, context])
  useEffect(() => {
    hand.settle(marks)
  }, [marks, hand])
  useEffect(() => {
    hand.takeUp(tool)
  }, [tool, hand])

  const load = useMemo(
    () => (overlays.errorLoad ? loadView(model, tallyParts) : undefined),
    [model, tallyParts, overlays.errorLoad],
  )
  const proof = useMemo(
    () => (overlays.proof === true && proofLanes !== undefined ? proofRegions(model, proofLanes) : undefined),
    [model, proofLanes, overlays.proof],
  )
  const rings = useMemo(
    () =>
      overlays.reach && reach !== undefined
        ? new Map(reach.fields.map((field) => [field.side, ringsOf(field, reach.radiusMm)]))
        : undefined,
    [reach, overlays.reach],
  )
  const isotherms = useMemo(
    () =>
      overlays.heat === true && heat !== undefined
        ? isothermsOf(heat.grid, heat.boardC, heat.levelsC, heat.liquidusC)
        : NO_ISOTHERMS,
    [heat, overlays.heat],
  )
  const wash = useMemo(
    () => (overlays.field ? washImage(suspects, themes[theme].field) : undefined),
    [suspects, theme, overlays.field],
  )
  const side = useStore(camera, (state) => state.side)
  const width = useStore(camera, (state) => state.width)
  const height = useStore(camera, (state) => state.height)
  const panes = width > 0 && height > 0 ? panesOf({ ...camera.getState(), side, width, height }) : []
  const second = panes[1]

  return (
    <div
      ref={element}
      className="sheet"
      data-theme={theme}
      // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a drawing that is worked by keys
      tabIndex={0}
      role="application"
      aria-label={
        side === 'both'
          ? say('Sheet of {name}, both sides', { name: model.name })
          : say('Sheet of {name}, {side} side', { name: model.name, side })
      }
      aria-describedby={help}
    >
      {panes.map((pane) => (
        <PaneView
          key={pane.side}
          pane={pane}
          props={props}
          context={context}
          scene={scene}
          load={load}
          proof={proof}
          rings={rings?.get(pane.side) ?? NO_RINGS}
          isotherms={isotherms}
          wash={wash}
        />
      ))}
      {second !== undefined && (
        <div
          className="sheet-divider"
          style={{
            left: second.left,
            top: second.top,
            width: second.left > 0 ? 1 : '100%',
            height: second.left > 0 ? '100%' : 1,
          }}
        />
      )}
      <Overview props={props} context={context} scene={scene} load={load} />
      <p className="sheet-unseen" id={help}>
        {KEYS_HELP}
      </p>
      <SpokenPart context={context} model={model} load={load} />
    </div>
  )
}
