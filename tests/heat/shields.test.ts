/**
 * Shields beside a rework site, held to what was measured: neighbours' peaks fell by up to 8.18 % (Ismail, Bakar, Ehsan,
 * Jalar, Burke, Zolkefli and Basiron, Effect of heat shield locations on rework-induced thermal management in ball grid
 * array solder joint, Scientific Reports 12, 15118, 2022). Most of a neighbour's heat comes through the board, so no
 * shield over it does more.
 */
import { expect, test } from 'vitest'
import { defaultEquipment, findSetting, type HeatSetting, simulate } from '../../src/heat/index.ts'
import { thermal, value } from '../support/heat-board.ts'
import { shippedBoard } from '../support/read-board.ts'

const MOST_SHARE = 0.0818

test('a shield over a neighbour lowers its peak, and by no more than was measured', () => {
  const model = shippedBoard('splice-6')
  const [target, neighbour] = model.memories.map(({ ref }) => ref)
  if (target === undefined || neighbour === undefined) throw new Error('two packages are needed')
  const lifted = value(findSetting(model, { ref: target, equipment: defaultEquipment }))
  if (!('run' in lifted)) throw new Error(lifted.cannot.join(' '))
  const peakC = (shields: HeatSetting['shields']): number => {
    const board = thermal(model, { cellMm: 1, side: lifted.run.setting.side, shields })
    const { parts } = value(simulate(board, { ...lifted.run.setting, shields }))
    return parts.find(({ ref }) => ref === neighbour)?.jointPeakC ?? Number.NaN
  }
  const bareC = peakC([])
  for (const kind of ['tape', 'heat-sink'] as const) {
    const share = 1 - peakC([{ ref: neighbour, kind }]) / bareC
    expect(share).toBeGreaterThan(0)
    expect(share).toBeLessThanOrEqual(MOST_SHARE)
  }
})
