/** Reach: the edge of what was wetted as a solid ring, round distances around it dashed. */
import type { Ring } from '../../spill/index.ts'
import { type DrawnView, type Shape, type Step } from './shape.ts'

/** One shape for each ring, in the order given; radii are not recomputed here. */
export const ringShapes = (view: DrawnView, rings: readonly Ring[]): Shape[] =>
  rings.map((ring) => ringShape(view, ring))

function ringShape(view: DrawnView, { loops, solid }: Ring): Shape {
  const { unit } = view
  const steps = loops.flatMap((loop) => loopSteps(view, loop))
  if (solid)
    return { steps, fill: { colour: 'field', alpha: 0.1 }, stroke: { colour: 'reach', width: 2.2 * unit, round: true } }
  return { steps, stroke: { colour: 'reach', width: 1.3 * unit, dash: [6 * unit, 5 * unit] } }
}

/** A closed line of x, y pairs in board mm. */
function loopSteps(view: DrawnView, loop: Float32Array): Step[] {
  const steps: Step[] = []
  for (let i = 0; i < loop.length; i += 2) {
    const { x, y } = view.at({ x: loop[i] ?? 0, y: loop[i + 1] ?? 0 })
    steps.push([i === 0 ? 'M' : 'L', x, y])
  }
  if (steps.length > 0) steps.push(['Z'])
  return steps
}
