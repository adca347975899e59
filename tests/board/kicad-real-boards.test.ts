/**
 * Real layouts that nobody here made, from Debian's kicad-demos, against answers that were counted by an independent
 * s-expression reader and by KiCad's own pcbnew (tests/fixtures/kicad/*.expected.json).
 */
import { createReadStream } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { describe, expect, it, type TestContext } from 'vitest'
import { boxOf, distance, placePoint, type Point } from '../../src/base/index.ts'
import { type BoardDescription, importKicad, type KicadImport, loadBoard, type Part } from '../../src/board/index.ts'
import { type KicadTruth, kicadTruth, packagedFile, realFile } from '../support/kicad-truth.ts'

const TOLERANCE_MM = 0.001
/** Corners on an arc lie between its ends and middle; the meanders of these boards have radii below this. */
const ON_TRACK_MM = 0.3
/** Nets of more pads are often joined by a zone, which has no track to end on a pad. */
const FEW_PADS = 4
const FETCH_MS = 300_000

const imports = new Map<string, Promise<KicadImport>>()

interface RealImport {
  readonly truth: KicadTruth
  readonly imported: KicadImport
  readonly description: BoardDescription
  readonly path: string
}

async function importReal(name: string, context: TestContext): Promise<RealImport> {
  const truth = kicadTruth(name)
  const path = await realFile(truth, context)
  const running = imports.get(path) ?? importFile(path, name)
  imports.set(path, running)
  const value = await running
  return { truth, imported: value, description: value.description, path }
}

async function importFile(path: string, name: string): Promise<KicadImport> {
  const result = await importKicad(createReadStream(path), { name })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

/** A point of the file (y down) where the board description must have it. */
const fromFile = (truth: KicadTruth, x: number, y: number): Point => ({
  x: x - truth.outlineBox[0],
  y: truth.outlineBox[3] - y,
})

const placementOf = (part: Part) => ({ at: part.at, rotationDeg: part.rotationDeg, mirrored: part.side === 'bottom' })

interface BoardPad {
  readonly number: string
  readonly at: Point
  readonly net: string | undefined
  readonly reachMm: number
}

const padsOnBoard = (part: Part): BoardPad[] =>
  (part.pads ?? []).map((pad) => ({
    number: pad.number,
    at: placePoint(pad.at, placementOf(part)),
    net: pad.net,
    reachMm: Math.max(pad.widthMm, pad.lengthMm) / 2,
  }))

/** Ends of tracks and middles of vias by net, in the file's own coordinates, found by regular expressions alone. */
async function trackEndsByNet(path: string): Promise<ReadonlyMap<string, [number, number][]>> {
  const text = await readFile(path, 'utf8')
  const names = new Map([...text.matchAll(/^\s{1,2}\(net (\d+) "(.*)"\)$/gm)].map(([, id = '', net = '']) => [id, net]))
  const ends = new Map<string, [number, number][]>()
  for (const [form] of text.matchAll(/^\s+\((?:segment|arc|via)\b(?:[^()]|\([^()]*\))*\)/gm)) {
    const net = names.get(/\(net (\d+)\)/.exec(form)?.[1] ?? '') ?? ''
    const own = ends.get(net) ?? []
    ends.set(net, own)
    for (const [, x = '', y = ''] of form.matchAll(/\((?:start|mid|end|at) (\S+) ([^\s)]+)\)/g))
      own.push([Number(x), Number(y)])
  }
  return ends
}

function partOf(description: BoardDescription, ref: string): Part {
  const part = description.parts.find((one) => one.ref === ref)
  if (part === undefined) throw new Error(`no part ${ref}`)
  return part
}

const kindRefs = (description: BoardDescription, kind: Part['kind']): string[] =>
  description.parts.flatMap((part) => (part.kind === kind ? [part.ref] : [])).toSorted()

describe.each(['video', 'kit-dev-coldfire', 'vme-wren'])('%s', (name) => {
  it('has as many parts, pads, nets, tracks, vias and zones as counted', { timeout: FETCH_MS }, async (context) => {
    const { truth, imported, description } = await importReal(name, context)
    const pads = description.parts.flatMap((part) => part.pads ?? [])
    const padsByNet = new Map<string, number>()
    for (const { net } of pads) if (net !== undefined) padsByNet.set(net, (padsByNet.get(net) ?? 0) + 1)
    expect({
      footprints: description.parts.length,
      pads: pads.length,
      numberedPads: pads.filter((pad) => pad.number !== '').length,
      netsOnPads: padsByNet.size,
      netsOnSeveralPads: [...padsByNet.values()].filter((count) => count > 1).length,
      top: description.parts.filter((part) => part.side === 'top').length,
      bottom: description.parts.filter((part) => part.side === 'bottom').length,
      tracks: imported.counts.tracks,
      vias: imported.counts.vias,
      zones: imported.counts.zones,
    }).toEqual(truth.counts)
    expect(truth.biggestNets.map(([net]) => [net, padsByNet.get(net)])).toEqual(truth.biggestNets)
    expect(imported.counts.bytes).toBe(truth.bytes)
    expect(imported.counts.version).toBe(truth.formatVersion)
    expect(description.copper.map((layer) => layer.name)).toEqual(truth.copperLayers)
  })

  it('has the outline that was measured, with its lower-left corner at the origin', async (context) => {
    const { truth, description } = await importReal(name, context)
    const box = boxOf(description.outline)
    expect(box.minX).toBeCloseTo(0, 6)
    expect(box.minY).toBeCloseTo(0, 6)
    expect(Math.abs(box.maxX - truth.outlineSizeMm[0])).toBeLessThan(TOLERANCE_MM)
    expect(Math.abs(box.maxY - truth.outlineSizeMm[1])).toBeLessThan(TOLERANCE_MM)
  })

  it('has every part with its side, place, rotation, pads and nets', async (context) => {
    const { truth, description } = await importReal(name, context)
    const wrong = truth.parts.filter(([ref, side, x, y, rotationDeg, padCount, netCount]) => {
      const part = partOf(description, ref)
      const pads = part.pads ?? []
      const nets = new Set(pads.flatMap((pad) => pad.net ?? []))
      const turned = Math.abs((((part.rotationDeg - rotationDeg) % 360) + 360) % 360)
      return (
        part.side !== side ||
        distance(part.at, fromFile(truth, x, y)) > TOLERANCE_MM ||
        Math.min(turned, 360 - turned) > TOLERANCE_MM ||
        pads.length !== padCount ||
        nets.size !== netCount
      )
    })
    expect(wrong).toEqual([])
  })

  it('puts the pads of every part, bottom ones too, where KiCad has them', async (context) => {
    const { truth, description } = await importReal(name, context)
    const rows = truth.parts.filter((row) => row.length === 11)
    expect(rows.length).toBeGreaterThan(100)
    const wrong = rows.filter(([ref, , , , , , , minX = NaN, minY = NaN, maxX = NaN, maxY = NaN]) => {
      const box = boxOf(padsOnBoard(partOf(description, ref)).map((pad) => pad.at))
      const low = fromFile(truth, minX, maxY)
      const high = fromFile(truth, maxX, minY)
      const offsets = [box.minX - low.x, box.minY - low.y, box.maxX - high.x, box.maxY - high.y]
      return offsets.some((offset) => !(Math.abs(offset) < TOLERANCE_MM))
    })
    expect(wrong).toEqual([])
  })

  it('tells the core and the memory parts', async (context) => {
    const { truth, description } = await importReal(name, context)
    expect(kindRefs(description, 'core')).toEqual([truth.core])
    expect(kindRefs(description, 'memory')).toEqual(truth.memories.map(({ ref }) => ref).toSorted())
  })

  it('joins memory balls to core balls ball by ball, byte lane by byte lane', async (context) => {
    const { truth, description } = await importReal(name, context)
    const found = description.memory.channels.flatMap((channel) =>
      channel.lanes.flatMap((lane) =>
        (lane.bits ?? []).map((bit) => [lane.part ?? channel.part, lane.name, bit.memoryBall, bit.coreBall].join(' ')),
      ),
    )
    const expected = truth.memories.flatMap(({ ref, data }) =>
      data.flatMap(([kind, lane, ball, coreBall]) => (kind === 'DQ' ? [[ref, lane, ball, coreBall].join(' ')] : [])),
    )
    expect(found.toSorted()).toEqual(expected.toSorted())
  })

  it('has data, strobe and mask balls on their nets and where they were measured', async (context) => {
    const { truth, description } = await importReal(name, context)
    const core = padsOnBoard(partOf(description, truth.core))
    const wrong = truth.memories.flatMap(({ ref, data }) => {
      const memory = padsOnBoard(partOf(description, ref))
      return data.filter(([, , ball, coreBall, net, memoryX, memoryY, coreX, coreY]) => {
        const at = memory.find((pad) => pad.number === ball)
        const coreAt = core.find((pad) => pad.number === coreBall)
        return (
          at === undefined ||
          coreAt === undefined ||
          at.net !== net ||
          coreAt.net !== net ||
          distance(at.at, fromFile(truth, memoryX, memoryY)) > TOLERANCE_MM ||
          distance(coreAt.at, fromFile(truth, coreX, coreY)) > TOLERANCE_MM
        )
      })
    })
    expect(wrong).toEqual([])
  })

  it('draws corridors that run from balls of the core to balls of the memory', async (context) => {
    const { truth, description } = await importReal(name, context)
    const lanes = description.memory.channels.flatMap((channel) =>
      channel.lanes.map((lane) => ({ lane, memory: partOf(description, lane.part ?? channel.part) })),
    )
    for (const { lane, memory } of lanes) {
      const ballsAt = (part: Part, balls: readonly (string | undefined)[]): Point[] =>
        padsOnBoard(part).flatMap((pad) => (balls.includes(pad.number) ? [pad.at] : []))
      const cores = ballsAt(partOf(description, truth.core), lane.bits?.map((bit) => bit.coreBall) ?? [])
      const memories = ballsAt(memory, lane.bits?.map((bit) => bit.memoryBall) ?? [])
      const [first, last] = [lane.corridor?.[0], lane.corridor?.at(-1)]
      expect(first && Math.min(...cores.map((at) => distance(at, first)))).toBeLessThan(TOLERANCE_MM)
      expect(last && Math.min(...memories.map((at) => distance(at, last)))).toBeLessThan(TOLERANCE_MM)
    }
  })

  it('loads as a board', async (context) => {
    const { truth, description } = await importReal(name, context)
    const model = loadBoard(JSON.parse(JSON.stringify(description)))
    expect(model.ok ? [] : model.faults).toEqual([])
    if (!model.ok) return
    expect(model.value.memories.length).toBe(truth.memories.length)
    const lanes = new Set(truth.memories.flatMap(({ ref, data }) => data.map(([, lane]) => `${ref}.${lane}`)))
    expect(model.value.lanes.map((lane) => lane.id).toSorted()).toEqual([...lanes].toSorted())
    const { lanes: laneList, regionById, corridorByLane } = model.value
    const halfKnown = laneList.filter(
      (lane) =>
        !regionById.has(lane.memoryRegion) ||
        !regionById.has(lane.coreRegion ?? '') ||
        corridorByLane.get(lane.id)?.from !== 'drawn',
    )
    expect(halfKnown).toEqual([])
  })

  it('draws corridors along the tracks of the lane: each corner is at an end or middle of one of them', async (context) => {
    const { truth, description, path } = await importReal(name, context)
    const ends = await trackEndsByNet(path)
    const strays = description.memory.channels.flatMap((channel) =>
      channel.lanes.flatMap((lane) => {
        const memory = padsOnBoard(partOf(description, channel.part))
        const pads = memory.filter((pad) => lane.bits?.some((bit) => bit.memoryBall === pad.number))
        const nets = new Set(pads.flatMap((pad) => pad.net ?? []))
        const padsOfNets = description.parts.flatMap((part) =>
          padsOnBoard(part).filter((pad) => nets.has(pad.net ?? '')),
        )
        const known = [
          ...[...nets].flatMap((net) => (ends.get(net) ?? []).map(([x, y]) => fromFile(truth, x, y))),
          ...padsOfNets.map((pad) => pad.at),
        ]
        return (lane.corridor ?? []).filter((corner) => !known.some((end) => distance(end, corner) < ON_TRACK_MM))
      }),
    )
    expect(strays).toEqual([])
  })
})

describe.each(['video', 'vme-wren'])('%s', (name) => {
  it('has bottom parts the right way round: tracks of its own net end on a pad', async (context) => {
    const { truth, description, path } = await importReal(name, context)
    const ends = await trackEndsByNet(path)
    const padCounts = new Map<string, number>()
    for (const { net = '' } of description.parts.flatMap((part) => part.pads ?? []))
      padCounts.set(net, (padCounts.get(net) ?? 0) + 1)
    const pads = description.parts
      .filter((part) => part.side === 'bottom')
      .flatMap((part) => padsOnBoard(part))
      .filter((pad) => ends.has(pad.net ?? '') && (padCounts.get(pad.net ?? '') ?? 0) <= FEW_PADS)
    const met = pads.filter((pad) =>
      (ends.get(pad.net ?? '') ?? []).some(([x, y]) => distance(fromFile(truth, x, y), pad.at) <= pad.reachMm),
    )
    expect(pads.length).toBeGreaterThan(10)
    expect(met.length / pads.length).toBeGreaterThan(0.97)
  })
})

describe('vme-wren', () => {
  it('tells converters, controllers and their inductors, ferrites not', async (context) => {
    const { truth, description } = await importReal('vme-wren', context)
    const powerParts = [...kindRefs(description, 'controller'), ...kindRefs(description, 'power-stage')]
    expect(powerParts).toEqual(expect.arrayContaining([...truth.powerParts]))
    // Counted from pin functions, values and nets by the independent reader: two parts of five outputs, eight inductors.
    expect(kindRefs(description, 'controller')).toEqual(['IC30', 'IC31'])
    expect(kindRefs(description, 'inductor')).toEqual(['L1', 'L11', 'L12', 'L15', 'L16', 'L17', 'L18', 'L9'])
  })

  it('tells which converter makes which rail, and volts only where the name says them', async (context) => {
    const { description } = await importReal('vme-wren', context)
    const rail = (name: string) => description.rails.find((one) => one.name === name)
    // Converter and inductor nets as pcbnew lists them: IC31 switches L17 for P1V2, IC32 L1 for 5VREG; IC22 is linear.
    expect(rail('P1V2')).toMatchObject({ nominalV: 1.2, stages: ['IC31'] })
    expect(rail('5VREG')).toMatchObject({ nominalV: 5, stages: ['IC32'] })
    expect(rail('P2V5')).toMatchObject({ nominalV: 2.5, stages: ['IC22'] })
    expect(rail('P1V2')?.feeds).toEqual(expect.arrayContaining(['IC5', 'IC13', 'IC14']))
    expect(rail('VTT_DDR4-PS')?.nominalV).toBeUndefined()
    expect(description.rails.map((one) => one.name)).not.toContain('GND')
  })
})

describe('video', () => {
  it('in its later edition, written in the format of version 9, has the same lanes ball by ball', {
    timeout: FETCH_MS,
  }, async (context) => {
    const { truth, description: older } = await importReal('video', context)
    const newer = { ...kicadTruth('vme-wren').package, path: truth.package.path }
    const value = await importFile(await packagedFile(newer, context), 'video')
    // In 9.0.8 the edge connector is counted once and nets of one pin have names: 2118 pads, 588 nets by the independent reader.
    expect(value.counts).toMatchObject({ footprints: 189, pads: 2118, nets: 588 })
    expect(
      value.description.memory.channels.map(({ id, lanes }) => [id, lanes.map(({ name, bits }) => [name, bits])]),
    ).toEqual(older.memory.channels.map(({ id, lanes }) => [id, lanes.map(({ name, bits }) => [name, bits])]))
  })

  it('says that the eight memory parts share one bus', async (context) => {
    const { imported } = await importReal('video', context)
    expect(imported.untold.join('\n')).toContain('8 memory parts share data nets of U22')
  })
})
