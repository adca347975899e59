/** What a shop may set: the least and the most of each figure, and one step beyond. */
import { describe, expect, test } from 'vitest'
import {
  defaultShopSettings,
  resolveShopSettings,
  shippedShopSettings,
  shopSettingsSchema,
} from '../../src/plan/index.ts'

describe('a shop’s own figure is taken from the least to the most, and none beyond', () => {
  // shares are chances; factors and spans are wide enough for any bench; heat counts by J-STD-020 classes go to 7
  test.each<[string, string, number, number, number]>([
    ['heat', 'heatLimit', 1, 7, 1],
    ['heat', 'unknownHeatCount', 0, 100, 1],
    ['heat', 'bodyBakeC', 20, 500, 0.5],
    ['heat', 'dryHours', 0, 1000, 0.5],
    ['exposure', 'meltRisk', 0, 1, 0.01],
    ['exposure', 'perHeatCount', 0, 100, 0.5],
    ['exposure', 'hangingFactor', 1, 100, 0.5],
    ['exposure', 'overLimitFullK', 1, 200, 0.5],
    ['exposure', 'neighbourC', 20, 500, 0.5],
    ['exposure', 'leastPrice', 0, 1e6, 0.5],
    ['rules', 'cleanReachMm', 0, 100, 0.5],
    ['rules', 'tornPadFactor', 0, 1, 0.01],
    ['rules', 'mostNodes', 0, 200_000, 1],
  ])('%s.%s from %d to %d', (section, name, least, most, step) => {
    const isTaken = (value: number): boolean => shopSettingsSchema.safeParse({ [section]: { [name]: value } }).success
    expect([least - step, least, most, most + step].map(isTaken)).toEqual([false, true, true, false])
  })
  test.each(['heatLimit', 'unknownHeatCount'])('heat.%s in whole numbers', (name) => {
    expect(shopSettingsSchema.safeParse({ heat: { [name]: 2.5 } }).success).toBe(false)
  })
  test('an oven is set as the bake tables of J-STD-033 have it: 40, 90 or 125 °C', () => {
    const isTaken = (ovenC: number): boolean => shopSettingsSchema.safeParse({ heat: { ovenC } }).success
    expect([40, 60, 90, 100, 125].map(isTaken)).toEqual([true, false, true, false, true])
  })
  test('a section or a figure that there is not is refused by its path', () => {
    for (const wrong of [{ colour: {} }, { money: { tip: 1 } }, { rules: { tip: 1 } }, { heat: { tip: 1 } }])
      expect(shopSettingsSchema.safeParse(wrong).success).toBe(false)
    const answer = resolveShopSettings({ pace: { core: -1 } })
    expect(answer.ok ? [] : answer.faults.map(({ path }) => path)).toEqual(['$.settings.pace.core'])
  })
  test.each(['money', 'minutes', 'materials', 'pace', 'heat', 'exposure', 'rules'] as const)(
    'one of %s changes that alone',
    (section) => {
      const [[name, value] = ['', 0]] = Object.entries(defaultShopSettings[section])
      const other = section === 'exposure' ? value / 2 : value + 1
      const answer = resolveShopSettings({ [section]: { [name]: other } })
      expect(answer).toEqual({
        ok: true,
        value: { ...defaultShopSettings, [section]: { ...defaultShopSettings[section], [name]: other } },
      })
    },
  )
  test('each shipped one has its reason and its source; what neighbours crack from is the heat room’s', () => {
    for (const entries of Object.values(shippedShopSettings))
      for (const { reason, source } of Object.values(entries)) expect([reason, source]).not.toContain('')
    // Ismail et al., Scientific Reports 12, 15118, 2022
    expect(shippedShopSettings['exposure']?.['neighbourC']).toMatchObject({
      value: 195,
      source: expect.stringContaining('Ismail'),
    })
  })
})
