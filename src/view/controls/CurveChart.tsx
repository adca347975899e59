/** Curves over time as a chart, told apart by their dashes as well as by colour, with the same numbers as a table. */
import { say } from '../../base/index.ts'
import { useEffect, useRef, useState } from 'react'
import type uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import { type ThemeName, themes, type } from '../look/index.ts'
import styles from './chart.module.css'

export interface Curve {
  readonly name: string
  readonly timeS: Float32Array
  readonly value: Float32Array
}

interface CurveChartProps {
  readonly label: string
  readonly unit: string
  readonly curves: readonly Curve[]
  /** A level to stay under or to pass, drawn across. */
  readonly level: { readonly value: number; readonly words: string }
  /** The moment that the rest of the screen shows. */
  readonly timeS: number
  readonly theme: ThemeName
}

const HEIGHT_PX = 190
export const curveDashes: readonly (readonly number[])[] = [[], [7, 4], [2, 3], [10, 3, 2, 3], [4, 8], [14, 4]]

const strokes = (theme: ThemeName): string[] => {
  const { ink, reachText, loadText, residueText, cleanText, needText } = themes[theme]
  return [ink, reachText, loadText, residueText, cleanText, needText]
}

export function CurveChart({ label, unit, curves, level, timeS, theme }: CurveChartProps) {
  const holder = useRef<HTMLDivElement>(null)
  const plot = useRef<uPlot>(undefined)
  const moment = useRef(timeS)
  const [failed, setFailed] = useState(false)
  useEffect(() => {
    const box = holder.current
    if (box === null) return undefined
    let ended = false
    const resized = new ResizeObserver(() => plot.current?.setSize({ width: box.clientWidth, height: HEIGHT_PX }))
    // Loaded when first needed; it refuses some browsers' language settings, and the table serves without it.
    void import('uplot').then(
      ({ default: Plot }) => {
        if (ended) return
        plot.current = new Plot(optionsOf(theme, unit, curves, level, box.clientWidth, moment), dataOf(curves), box)
        resized.observe(box)
      },
      () => setFailed(true),
    )
    return () => {
      ended = true
      resized.disconnect()
      plot.current?.destroy()
      plot.current = undefined
    }
  }, [curves, level, theme, unit])
  useEffect(() => {
    moment.current = timeS
    plot.current?.redraw(false, false)
  }, [timeS])
  return (
    <figure className={styles.chart}>
      {failed ? (
        <p>{say('The chart can’t be drawn in this browser; the table below has its numbers.')}</p>
      ) : (
        <div ref={holder} role="img" aria-label={label} style={{ height: HEIGHT_PX }} />
      )}
      <figcaption className={styles.key}>
        {curves.map((curve, i) => (
          <span key={curve.name}>
            <svg width="26" height="8" aria-hidden="true">
              <line
                x1="0"
                x2="26"
                y1="4"
                y2="4"
                stroke={strokes(theme)[i % 6]}
                strokeWidth="2.4"
                strokeDasharray={curveDashes[i % curveDashes.length]?.join(' ')}
              />
            </svg>
            {curve.name}
          </span>
        ))}
        <span>
          <svg width="26" height="8" aria-hidden="true">
            <line x1="0" x2="26" y1="4" y2="4" stroke="var(--need-text)" strokeWidth="1.4" />
          </svg>
          {level.words}
        </span>
      </figcaption>
    </figure>
  )
}

/** All curves over the first one's times: a run keeps the same moments for every part. */
function dataOf(curves: readonly Curve[]): uPlot.AlignedData {
  const times = curves[0]?.timeS ?? new Float32Array()
  return [Array.from(times), ...curves.map(({ value }) => Array.from(value))]
}

function optionsOf(
  theme: ThemeName,
  unit: string,
  curves: readonly Curve[],
  level: CurveChartProps['level'],
  width: number,
  moment: { readonly current: number },
): uPlot.Options {
  const { muted, hairline } = themes[theme]
  const axis = {
    stroke: muted,
    font: `12px ${type.family}`,
    grid: { stroke: hairline, width: 1 },
    ticks: { stroke: hairline, width: 1 },
  }
  return {
    width,
    height: HEIGHT_PX,
    legend: { show: false },
    cursor: { show: false },
    scales: {
      x: { time: false },
      y: { range: (_, low, high) => [Math.min(20, low), Math.max(high, level.value) + 10] },
    },
    axes: [
      { ...axis, size: 34, values: (_, ticks) => ticks.map((tick) => `${tick} s`) },
      { ...axis, size: 52, values: (_, ticks) => ticks.map((tick) => `${tick} ${unit}`) },
    ],
    series: [
      {},
      ...curves.map(({ name }, i) => ({
        label: name,
        stroke: strokes(theme)[i % 6] ?? muted,
        width: i === 0 ? 2.6 : 1.8,
        dash: [...(curveDashes[i % curveDashes.length] ?? [])],
        points: { show: false },
      })),
    ],
    hooks: { draw: [(plot) => drawGuides(plot, theme, level.value, moment.current)] },
  }
}

function drawGuides(plot: uPlot, theme: ThemeName, levelValue: number, timeS: number): void {
  const { ctx, bbox } = plot
  const y = plot.valToPos(levelValue, 'y', true)
  const x = plot.valToPos(timeS, 'x', true)
  ctx.save()
  ctx.setLineDash([])
  ctx.strokeStyle = themes[theme].needText
  ctx.lineWidth = 1.4 * devicePixelRatio
  ctx.beginPath()
  ctx.moveTo(bbox.left, y)
  ctx.lineTo(bbox.left + bbox.width, y)
  ctx.stroke()
  ctx.strokeStyle = themes[theme].ink
  ctx.lineWidth = devicePixelRatio
  ctx.beginPath()
  ctx.moveTo(x, bbox.top)
  ctx.lineTo(x, bbox.top + bbox.height)
  ctx.stroke()
  ctx.restore()
}
