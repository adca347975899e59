/** Underfill in place of air couples a body to its board: its joints follow the jet more closely, as the two conduct side by side. */
import { expect, test } from 'vitest'
import { simulate } from '../../src/heat/index.ts'
import { boardWith, packageAt, settingAt, thermal, value } from '../support/heat-board.ts'

/** How far the body of U1 runs ahead of its joints under the nozzle, K. */
function aheadK(bonding: 'none' | 'corner' | 'edge' | 'underfill'): number {
  const model = boardWith([packageAt('U1', 40, 35, { bonding }), packageAt('U2', 55, 35)])
  const { parts } = value(simulate(thermal(model, { cellMm: 2 }), settingAt(40, 35)))
  const part = parts.find(({ ref }) => ref === 'U1')
  if (part === undefined) throw new Error('no U1')
  return part.bodyPeakC - part.jointPeakC
}

test('underfill brings joints nearer to the body, glue at corners and rim changes nothing', () => {
  const bare = aheadK('none')
  expect(bare).toBeGreaterThan(0)
  expect(aheadK('corner')).toBe(bare)
  expect(aheadK('edge')).toBe(bare)
  const filled = aheadK('underfill')
  expect(filled).toBeLessThan(bare)
  // 120 balls of 0.45 mm on 12 × 14 mm: share 120 · π/4 · 0.45² / 168 = 0.1136 of the area is solder, the rest the gap
  const share = (120 * (Math.PI / 4) * 0.45 ** 2) / (12 * 14)
  // at most by as much as the gap conducts better: 0.4 in place of 0.035 W/mK beside solder of 58 W/mK
  const better = (58 * share + 0.4 * (1 - share)) / (58 * share + 0.035 * (1 - share))
  expect(bare / filled).toBeLessThan(better * 1.02)
})
