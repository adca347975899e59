/** Rails of an invented card, with the resistance ranges that the trade goes by. */
import type { z } from 'zod'
import type { Canvas, railSchema } from '../../../src/board/index.ts'
import type { PlacedCapacitors } from './capacitors.ts'
import { corePlane, memoryPlane } from './planes.ts'
import type { PlacedMemory } from './memory.ts'
import type { CardPlan } from './plan.ts'
import type { PlacedPower } from './power.ts'

type RailFile = z.input<typeof railSchema>
const FROM = 'common practice, no source'

export function railsOf(
  canvas: Canvas,
  plan: CardPlan,
  memory: PlacedMemory,
  power: PlacedPower,
  capacitors: PlacedCapacitors,
): RailFile[] {
  const stages = [...power.coreStages, ...power.memoryStages]
  const pointsAt = (refs: readonly string[]): NonNullable<RailFile['points']> =>
    refs.slice(0, 2).flatMap((ref) => {
      const part = canvas.parts.find((candidate) => candidate.ref === ref)
      return part === undefined ? [] : [{ side: part.side, at: part.at, part: ref }]
    })
  const inductorOf = (stageRefs: readonly string[]): string[] =>
    power.inductors.filter(({ stage }) => stageRefs.includes(stage)).map(({ ref }) => ref)
  const branches = branchesOf(canvas, plan, memory)
  const rails: RailFile[] = [
    {
      name: '12V',
      nominalV: 12,
      tolerancePct: 8,
      ohmsToGround: { lowOhm: 1000, highOhm: 50_000, from: FROM },
      feeds: [...stages, ...power.controllers, ...capacitors.input],
      points: pointsAt([power.powerConnector, ...capacitors.input]),
    },
    {
      name: 'VCORE',
      nominalV: 0.9,
      tolerancePct: 10,
      ohmsToGround: { lowOhm: 0.2, highOhm: 2, from: FROM },
      stages: [...power.coreStages],
      feeds: ['U1', ...capacitors.core],
      points: pointsAt(inductorOf(power.coreStages)),
      copper: corePlane(plan, power),
    },
    {
      name: 'VMEM',
      nominalV: plan.memoryVolts,
      tolerancePct: 3,
      ohmsToGround: { lowOhm: 20, highOhm: 150, from: FROM },
      stages: [...power.memoryStages],
      feeds: [...memory.refs, 'U1', ...capacitors.memory],
      branches,
      points: pointsAt(inductorOf(power.memoryStages)),
      copper: memoryPlane(plan, power),
    },
    {
      name: '3V3',
      nominalV: 3.3,
      tolerancePct: 9,
      ohmsToGround: { lowOhm: 200, highOhm: 10_000, from: FROM },
      feeds: [power.vppStage, power.ioStage, ...power.controllers, ...power.displayConnectors],
      points: pointsAt([power.edgeConnector]),
    },
    {
      name: '0V9',
      nominalV: 0.9,
      tolerancePct: 5,
      ohmsToGround: { lowOhm: 5, highOhm: 50, from: FROM },
      stages: [power.ioStage],
      feeds: ['U1'],
      points: pointsAt([power.ioStage]),
    },
  ]
  return plan.hasVpp ? [...rails, vpp(memory, power, branches, pointsAt)] : rails
}

function vpp(
  memory: PlacedMemory,
  power: PlacedPower,
  branches: RailFile['branches'],
  pointsAt: (refs: readonly string[]) => NonNullable<RailFile['points']>,
): RailFile {
  return {
    name: 'VPP',
    nominalV: 1.8,
    tolerancePct: 3,
    ohmsToGround: { lowOhm: 50, highOhm: 2000, from: FROM },
    stages: [power.vppStage],
    feeds: [...memory.refs],
    branches: (branches ?? []).map((branch) => ({ ...branch, name: branch.name.replace('VMEM', 'VPP') })),
    points: pointsAt([power.vppStage]),
  }
}

/** The plane splits west and east of the core's middle. */
function branchesOf(canvas: Canvas, plan: CardPlan, memory: PlacedMemory): NonNullable<RailFile['branches']> {
  const isWest = (ref: string): boolean => (canvas.parts.find((part) => part.ref === ref)?.at.x ?? 0) < plan.core.at.x
  const west = memory.refs.filter(isWest)
  const east = memory.refs.filter((ref) => !isWest(ref))
  return [
    { name: 'VMEM west', feeds: west },
    { name: 'VMEM east', feeds: east },
  ]
}
