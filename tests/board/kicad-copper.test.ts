/** Copper layers of imported layouts: which there are, how they are called, how thick and how full. By hand. */
import { describe, expect, it } from 'vitest'
import { sheetStack } from '../../src/heat/index.ts'
import { footprintText, imported, layoutText } from '../support/kicad-text.ts'

const part = footprintText('U1', [{ number: '1', x: 0, y: 0, net: '/A' }], { x: 50, y: 50 })
const withLayers = (rows: string, forms: readonly string[] = []): string =>
  layoutText([part, ...forms]).replace('(0 "F.Cu" signal) (31 "B.Cu" signal)', rows)
const namesOf = async (text: string): Promise<string[]> =>
  (await imported(text)).description.copper.map(({ name }) => name)

describe('copper layers without a stack-up', () => {
  const rows = '(0 "F.Cu" signal) (1 "In1.Cu" power "Masse") (2 "In2.Cu" mixed) (31 "B.Cu" signal)'

  it('keep their count and names, from the top down', async () => {
    expect(await namesOf(withLayers(rows))).toEqual(['F.Cu', 'Masse', 'In2.Cu', 'B.Cu'])
  })

  it('are taken as one ounce thick, which the layout and the heat both say', async () => {
    const { description, untold } = await imported(withLayers(rows))
    expect(description.copper.map(({ thicknessUm }) => thicknessUm)).toEqual([35, 35, 35, 35])
    expect(untold.join('\n')).toMatch(/no stack-up.*35 µm each is assumed/)
    expect(sheetStack(description).notes.join(' ')).toMatch(/4 of its 4 copper layers.*35 µm each is assumed/)
  })

  it('are as full as zones, filled or not, and tracks make them', async () => {
    const square = (x: number, size: number): string =>
      `(pts (xy ${x} 10) (xy ${x + size} 10) (xy ${x + size} ${10 + size}) (xy ${x} ${10 + size}))`
    const filled = `(zone (net 0) (net_name "") (layer "F.Cu") (polygon ${square(10, 60)}) (filled_polygon (layer "F.Cu") ${square(10, 50)}))`
    const unfilled = `(zone (net 0) (net_name "") (layers "In1.Cu" "In2.Cu") (polygon ${square(10, 40)}))`
    const keepout = `(zone (net 0) (net_name "") (layers "*.Cu") (keepout (tracks not_allowed)) (polygon ${square(10, 80)}))`
    const { description, untold } = await imported(withLayers(rows, [filled, unfilled, keepout]))
    // 50 mm and 40 mm squares on a board of 100 mm: a quarter, and 16 %; the pad adds 0.16 mm² at the top.
    expect(description.copper.map(({ fill }) => fill)).toEqual([0.25, 0.16, 0.16, 0])
    expect(untold.join('\n')).toContain('not filled count as full')
  })
})

describe('the name of a copper layer', () => {
  it('is not what stands after it as type or as hidden', async () => {
    expect(await namesOf(withLayers('(0 F.Cu signal) (1 In1.Cu power hide) (31 B.Cu signal "signal")'))).toEqual([
      'F.Cu',
      'In1.Cu',
      'B.Cu',
    ])
  })

  it('is the canonical one where the user’s stands on two layers', async () => {
    expect(await namesOf(withLayers('(0 "F.Cu" signal "Lage") (31 "B.Cu" signal "Lage")'))).toEqual(['F.Cu', 'B.Cu'])
  })

  it('tells copper whatever its type is', async () => {
    expect(await namesOf(withLayers('(0 "F.Cu" user "Vorn") (4 "In1.Cu" user) (2 "B.Cu" signal)'))).toEqual([
      'Vorn',
      'In1.Cu',
      'B.Cu',
    ])
  })
})

describe('a stack-up', () => {
  it('says how thick the layers of the table are, whatever it calls their type', async () => {
    const stackup =
      '(setup (stackup (layer "F.Cu" (type "copper") (thickness 0.07)) (layer "dielectric 1" (type "core") (thickness 1.4)) (layer "B.Cu" (type "Foil") (thickness 0.018))))'
    const { description } = await imported(
      withLayers('(0 "F.Cu" signal) (1 "In1.Cu" signal) (31 "B.Cu" signal)', [stackup]),
    )
    expect(
      description.copper.map(({ name, thicknessUm, thicknessFrom }) => [name, thicknessUm, thicknessFrom]),
    ).toEqual([
      ['F.Cu', 70, undefined],
      ['In1.Cu', 35, 'assumed'],
      ['B.Cu', 18, undefined],
    ])
  })
})
