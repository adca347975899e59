/** The whole board in a corner, with a window that can be dragged over it. */
import { type PointerEvent, useEffect, useReducer, useRef } from 'react'
import { themes } from '../look/tokens.ts'
import { Canvas, type CanvasHandle, type Draw } from './Canvas.tsx'
import type { SheetContext } from './context.ts'
import { drawOverview } from './draw/overview.ts'
import type { SheetProps } from './props.ts'
import { panesOf, toBoard } from './pure/camera.ts'
import type { LoadView } from '../../case/index.ts'
import { overviewPlace, overviewTransform } from './pure/overview.ts'
import type { Scene } from './pure/scene.ts'

interface OverviewProps {
  readonly props: SheetProps
  readonly context: SheetContext
  readonly scene: Scene
  readonly load: LoadView | undefined
}

export function Overview({ props, context, scene, load }: OverviewProps) {
  const picture = useRef<CanvasHandle>(null)
  const dragging = useRef(false)
  const [, render] = useReducer((n: number) => n + 1, 0)
  const { camera, theme } = props
  const place = overviewPlace(camera.getState(), camera.getState().boardBox)

  useEffect(() => {
    const placeKey = (): string => {
      const state = camera.getState()
      return JSON.stringify([overviewPlace(state, state.boardBox), state.side])
    }
    let before = placeKey()
    return camera.subscribe(() => {
      const now = placeKey()
      if (now !== before) render()
      before = now
      picture.current?.redraw()
    })
  }, [camera])
  useEffect(
    () =>
      context.hand.subscribe((state, before) => {
        if (state.edited !== before.edited) picture.current?.redraw()
      }),
    [context],
  )

  const pane = panesOf(camera.getState())[0]
  if (place === undefined || pane === undefined) return null

  const moveTo = (event: PointerEvent<HTMLDivElement>) => {
    const frame = event.currentTarget.getBoundingClientRect()
    const { boardBox, moveTo: centreOn } = camera.getState()
    centreOn(
      toBoard(overviewTransform(place, boardBox, pane), {
        x: event.clientX - frame.left,
        y: event.clientY - frame.top,
      }),
    )
  }
  const draw: Draw = (ctx) =>
    drawOverview(ctx, {
      place,
      camera: camera.getState(),
      boardBox: camera.getState().boardBox,
      theme: themes[theme],
      scene,
      load,
      marks: props.marks,
      edited: context.hand.getState().edited,
    })
  return (
    <div
      className="sheet-overview"
      style={{ left: place.left, top: place.top, width: place.width, height: place.height }}
      aria-hidden="true"
      onPointerDown={(event) => {
        event.stopPropagation()
        event.currentTarget.setPointerCapture(event.pointerId)
        dragging.current = true
        moveTo(event)
      }}
      onPointerMove={(event) => {
        event.stopPropagation()
        if (dragging.current) moveTo(event)
      }}
      onPointerUp={(event) => {
        event.stopPropagation()
        dragging.current = false
      }}
      onDoubleClick={(event) => event.stopPropagation()}
    >
      <Canvas ref={picture} width={place.width} height={place.height} draw={draw} />
    </div>
  )
}
