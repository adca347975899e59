/** One side of the board: three canvases that redraw when the camera, the hand or what they show changes. */
import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react'
import { themes } from '../look/tokens.ts'
import { Canvas, type CanvasHandle, type Draw } from './Canvas.tsx'
import type { SheetContext } from './context.ts'
import { type Frame, frameOf } from './draw/frame.ts'
import { forgetWidths } from './draw/text.ts'
import { createDrawnSign, layerNames } from './drawnSign.ts'
import { drawBoardLayer, drawFieldLayer, drawHandLayer } from './paneLayers.ts'
import type { PhotoView, SheetProps } from './props.ts'
import type { Pane } from './pure/camera.ts'
import type { Isotherm } from './pure/isotherms.ts'
import type { LoadView } from '../../case/index.ts'
import type { ProofKind } from './pure/proofRegions.ts'
import { overviewBox, overviewPlace } from './pure/overview.ts'
import type { Ring } from '../../spill/index.ts'
import type { Scene } from './pure/scene.ts'
import type { WashImage } from './wash.ts'

interface PaneViewProps {
  readonly pane: Pane
  readonly props: SheetProps
  readonly context: SheetContext
  readonly scene: Scene
  readonly load: LoadView | undefined
  readonly proof: ReadonlyMap<string, ProofKind> | undefined
  readonly rings: readonly Ring[]
  readonly isotherms: readonly Isotherm[]
  readonly wash: WashImage | undefined
}

const NO_PHOTOS: readonly PhotoView[] = []
const FONT_FACES = ['400 14px', '700 14px'] as const

export function PaneView({ pane, props, context, scene, load, proof, rings, isotherms, wash }: PaneViewProps) {
  const board = useRef<CanvasHandle>(null)
  const fields = useRef<CanvasHandle>(null)
  const handLayer = useRef<CanvasHandle>(null)
  const element = useRef<HTMLDivElement>(null)
  const [sign] = useState(createDrawnSign)
  const { camera, theme, overlays, model, names, short, photos = NO_PHOTOS } = props
  const { side, left, top, width, height } = pane

  const frameNow = useCallback(
    (ctx: CanvasRenderingContext2D): Frame =>
      frameOf(ctx, camera.getState(), { side, left, top, width, height }, themes[theme]),
    [camera, theme, side, left, top, width, height],
  )

  useEffect(() => {
    const drawAll = () => {
      sign.ask(...layerNames)
      board.current?.redraw()
      fields.current?.redraw()
      handLayer.current?.redraw()
    }
    const stopCamera = camera.subscribe(drawAll)
    const stopHand = context.hand.subscribe(() => {
      sign.ask('hand')
      handLayer.current?.redraw()
    })
    void Promise.allSettled(
      FONT_FACES.map((face) => document.fonts.load(`${face} "Atkinson Hyperlegible Next Variable"`)),
    ).then(() => {
      forgetWidths()
      sign.fontCame()
      drawAll()
    })
    return () => {
      stopCamera()
      stopHand()
    }
  }, [camera, context, sign])

  const drawBoard = useCallback<Draw>(
    (ctx) => {
      drawBoardLayer(frameNow(ctx), { scene, load, proof, labels: overlays.labels, names, photos })
      sign.drew('board')
    },
    [frameNow, sign, scene, load, proof, overlays.labels, names, photos],
  )
  const drawFields = useCallback<Draw>(
    (ctx) => {
      drawFieldLayer(frameNow(ctx), model, wash, rings, isotherms, short)
      sign.drew('fields')
    },
    [frameNow, sign, model, wash, rings, isotherms, short],
  )
  // Made anew in each render: all that the hand layer shows may change with any prop, and it is cheap.
  const drawHand: Draw = (ctx) => {
    const overview = overviewPlace(camera.getState(), camera.getState().boardBox)
    const covered = overview === undefined ? [] : [overviewBox(overview)]
    drawHandLayer(frameNow(ctx), { scene, props, rings, isotherms, hand: context.hand.getState(), covered })
    sign.drew('hand')
  }
  useLayoutEffect(() => sign.standOn(element.current), [sign])
  useLayoutEffect(() => sign.drawnBy({ board: drawBoard, fields: drawFields, hand: drawHand }))

  return (
    <div ref={element} style={{ position: 'absolute', left, top, width, height }} data-pane={side}>
      <Canvas ref={board} width={width} height={height} draw={drawBoard} />
      <Canvas ref={fields} width={width} height={height} draw={drawFields} />
      <Canvas ref={handLayer} width={width} height={height} draw={drawHand} />
    </div>
  )
}
