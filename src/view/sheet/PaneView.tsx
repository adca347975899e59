/** One side of the board: three canvas layers that redraw when the camera, the hand or what they show changes. */
import type Konva from 'konva'
import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react'
import { Layer, Shape, Stage } from 'react-konva'
import type { Context } from 'konva/lib/Context.js'
import { themes } from '../look/tokens.ts'
import type { SheetContext } from './context.ts'
import { type Frame, frameOf } from './draw/frame.ts'
import { nativeContext } from './draw/native.ts'
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
  const board = useRef<Konva.Layer>(null)
  const fields = useRef<Konva.Layer>(null)
  const handLayer = useRef<Konva.Layer>(null)
  const element = useRef<HTMLDivElement>(null)
  const [sign] = useState(createDrawnSign)
  const { camera, theme, overlays, model, names, short, photos = NO_PHOTOS } = props
  const { side, left, top, width, height } = pane

  const framed = useCallback(
    (draw: (frame: Frame) => void) => (konva: Context) => {
      const ctx = nativeContext(konva)
      ctx.save()
      draw(frameOf(ctx, camera.getState(), { side, left, top, width, height }, themes[theme]))
      ctx.restore()
    },
    [camera, theme, side, left, top, width, height],
  )

  useEffect(() => {
    const drawAll = () => {
      sign.ask(...layerNames)
      board.current?.batchDraw()
      fields.current?.batchDraw()
      handLayer.current?.batchDraw()
    }
    const stopCamera = camera.subscribe(drawAll)
    const stopHand = context.hand.subscribe(() => {
      sign.ask('hand')
      handLayer.current?.batchDraw()
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

  const drawBoard = useCallback(
    (konva: Context) => {
      framed((frame) => drawBoardLayer(frame, { scene, load, proof, labels: overlays.labels, names, photos }))(konva)
      sign.drew('board')
    },
    [framed, sign, scene, load, proof, overlays.labels, names, photos],
  )
  const drawFields = useCallback(
    (konva: Context) => {
      framed((frame) => drawFieldLayer(frame, model, wash, rings, isotherms, short))(konva)
      sign.drew('fields')
    },
    [framed, sign, model, wash, rings, isotherms, short],
  )
  // Made anew in each render: all that the hand layer shows may change with any prop, and it is cheap.
  const drawHand = (konva: Context) => {
    framed((frame) => {
      const overview = overviewPlace(camera.getState(), camera.getState().boardBox)
      const covered = overview === undefined ? [] : [overviewBox(overview)]
      drawHandLayer(frame, { scene, props, rings, isotherms, hand: context.hand.getState(), covered })
    })(konva)
    sign.drew('hand')
  }
  useLayoutEffect(() => sign.standOn(element.current), [sign])
  useLayoutEffect(() => sign.drawnBy({ board: drawBoard, fields: drawFields, hand: drawHand }))

  return (
    <div ref={element} style={{ position: 'absolute', left, top, width, height }} data-pane={side}>
      <Stage width={width} height={height} listening={false}>
        <Layer ref={board} listening={false}>
          <Shape sceneFunc={drawBoard} listening={false} />
        </Layer>
        <Layer ref={fields} listening={false}>
          <Shape sceneFunc={drawFields} listening={false} />
        </Layer>
        <Layer ref={handLayer} listening={false}>
          <Shape sceneFunc={drawHand} listening={false} />
        </Layer>
      </Stage>
    </div>
  )
}
