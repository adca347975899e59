/**
 * IPC-2581 files: small ones by hand, revisions B and C of an invented board as KiCad's exporter writes them, and XML that is
 * made to harm.
 */
import { readFileSync } from 'node:fs'
import { unzipSync } from 'fflate'
import { beforeAll, describe, expect, it } from 'vitest'
import { boxOf, signedArea } from '../../src/base/index.ts'
import {
  boardFormatOf,
  type BoardDescription,
  type BoardImport,
  importBoard,
  loadBoard,
} from '../../src/board/index.ts'
import {
  fixturePath,
  importedFixtures,
  lanesOf,
  originShift,
  padPlaces,
  padsElsewhere,
  partsByRef,
  pinGroups,
  textFile,
} from '../support/board-data.ts'

const unpacked = (name: string): string => {
  const [bytes] = Object.values(unzipSync(new Uint8Array(readFileSync(fixturePath(name)))))
  return new TextDecoder().decode(bytes)
}

const importText = (text: string) => importBoard([textFile('card.xml', text)])
async function read(text: string): Promise<BoardImport> {
  const result = await importText(text)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}
const faultsOf = async (text: string) => {
  const result = await importText(text)
  return result.ok ? [] : result.faults.map(({ path, found }) => `${path}: ${found}`)
}

/** A board of 40 x 20 mm with a part on each side, whose pins and nets stand apart from its copper, as other writers do. */
const small = ({ units = 'MILLIMETER', per = 1, nets = '' } = {}): string => {
  const n = (mm: number): string => String(mm / per)
  return `<?xml version="1.0" encoding="UTF-8"?>
<!-- by hand -->
<ipc:IPC-2581 revision="C" xmlns:ipc='http://webstds.ipc.org/2581'>
  <Content roleRef="Owner"><DictionaryStandard units="${units}">
    <EntryStandard id="P1"><RectCenter width="${n(1)}" height="${n(0.5)}"/></EntryStandard>
  </DictionaryStandard></Content>
  <Bom name="b"><BomItem OEMDesignNumberRef="x"><RefDes name="R7" packageRef="CHIP" layerRef="TOP"/>
    <Characteristics category="ELECTRICAL"><Textual textualCharacteristicName="Value" textualCharacteristicValue="10k &amp; 1 %"/></Characteristics>
  </BomItem></Bom>
  <Ecad name="e"><CadHeader units="${units}"/><CadData>
    <Layer name="SIG1" layerFunction="SIGNAL" side="TOP" polarity="POSITIVE"/>
    <Layer name="PWR" layerFunction="PLANE" side="INTERNAL" polarity="POSITIVE"/>
    <Layer name="SIG2" layerFunction="SIGNAL" side="BOTTOM" polarity="POSITIVE"/>
    <Stackup overallThickness="${n(1.5)}"><StackupGroup thickness="${n(1.5)}">
      <StackupLayer layerOrGroupRef="SIG1" thickness="${n(0.05)}" sequence="1"/>
      <StackupLayer layerOrGroupRef="SIG2" thickness="${n(0.04)}" sequence="5"/>
      <StackupLayer layerOrGroupRef="PWR" thickness="${n(0.03)}" sequence="3"/>
    </StackupGroup></Stackup>
    <Step name="card">
      <Profile><Polygon><PolyBegin x="0" y="0"/><PolyStepSegment x="${n(40)}" y="0"/>
        <PolyStepCurve x="${n(40)}" y="${n(20)}" centerX="${n(40)}" centerY="${n(10)}" clockwise="false"/>
        <PolyStepSegment x="0" y="${n(20)}"/><PolyStepSegment x="0" y="0"/></Polygon></Profile>
      <Package name="CHIP" type="CHIP" height="${n(0.6)}"><Outline><Polygon><PolyBegin x="${n(-2)}" y="${n(-1)}"/>
        <PolyStepSegment x="${n(2)}" y="${n(-1)}"/><PolyStepSegment x="${n(2)}" y="${n(1)}"/><PolyStepSegment x="${n(-2)}" y="${n(1)}"/></Polygon></Outline>
        <Pin number="1" type="SURFACE"><Location x="${n(-1.5)}" y="0"/><StandardPrimitiveRef id="P1"/></Pin>
        <Pin number="2" type="SURFACE" x="${n(1.5)}" y="0"><StandardPrimitiveRef id="P1"/></Pin></Package>
      <Component refDes="R7" packageRef="CHIP" layerRef="SIG1" mountType="SMT"><Xform rotation="90"/><Location x="${n(10)}" y="${n(10)}"/></Component>
      <Component refDes="R8" packageRef="CHIP" layerRef="SIG2" mountType="SMT"><Xform mirror="true"/><Location x="${n(30)}" y="${n(10)}"/></Component>
      ${nets}
    </Step></CadData></Ecad>
</ipc:IPC-2581>
`
}
const LOGICAL =
  '<LogicalNet name="VCC"><PinRef componentRef="R7" pin="1"/><PinRef componentRef="R8" pin="2"/></LogicalNet><LogicalNet name="GND"><PinRef componentRef="R7" pin="2"/></LogicalNet>'

describe('a file whose packages hold the pins and whose nets name them', () => {
  const expectIn = ({ description }: BoardImport): void => {
    const parts = partsByRef(description)
    expect(parts.get('R7')).toMatchObject({
      side: 'top',
      value: '10k & 1 %',
      rotationDeg: 90,
      body: { widthMm: 4, lengthMm: 2, heightMm: 0.6 },
    })
    expect(parts.get('R8')?.side).toBe('bottom')
    const at = (x: number, y: number) => ({ x: expect.closeTo(x, 6), y: expect.closeTo(y, 6) })
    // by hand: -1.5, 0 turned by 90 degrees about 10, 10 is 10, 8.5; mirrored left and right about 30, 10 it is 31.5, 10
    expect(padPlaces(parts.get('R7') ?? expect.fail('no R7'))).toEqual([
      { number: '1', at: at(10, 8.5), net: 'VCC' },
      { number: '2', at: at(10, 11.5), net: 'GND' },
    ])
    expect(padPlaces(parts.get('R8') ?? expect.fail('no R8'))).toEqual([
      { number: '1', at: at(31.5, 10), net: undefined },
      { number: '2', at: at(28.5, 10), net: 'VCC' },
    ])
    // 40 x 20 and half a circle of 10 mm
    expect(Math.abs(signedArea(description.outline))).toBeCloseTo(800 + Math.PI * 50, 0)
    expect(boxOf(description.outline).maxX).toBeCloseTo(50, 3)
    expect(description.thicknessMm).toBeCloseTo(1.5, 6)
    expect(description.copper.map(({ name, thicknessUm }) => [name, thicknessUm])).toEqual([
      ['SIG1', 50],
      ['PWR', 30],
      ['SIG2', 40],
    ])
  }

  it.each([
    ['MILLIMETER', 1],
    ['INCH', 25.4],
    ['MICRON', 0.001],
  ])('gives edge, stack, parts, pads and nets in %s', async (units, per) => {
    const board = await read(small({ units, per, nets: LOGICAL }))
    expect(board.description.parts).toHaveLength(2)
    expectIn(board)
  })

  it('gives the same where nets stand beside the board and not in it', async () => {
    const board = await read(small().replace('<Ecad name="e">', `${LOGICAL}<Ecad name="e">`))
    expect(board.description.parts).toHaveLength(2)
    expectIn(board)
  })

  it('gives the size of pads by their padstack, where a pad of the copper names one', async () => {
    const pad =
      '<PadStackDef name="S"><PadstackPadDef layerRef="SIG1" padUse="REGULAR"><Location x="0" y="0"/><StandardPrimitiveRef id="P1"/></PadstackPadDef></PadStackDef><LayerFeature layerRef="SIG1"><Set net="VCC" geometry="S"><Pad><Location x="10" y="8.5"/><PinRef componentRef="R7" pin="1"/></Pad></Set></LayerFeature>'
    const { description } = await read(small({ nets: pad }))
    expect(partsByRef(description).get('R7')?.pads).toMatchObject([
      { number: '1', widthMm: 1, lengthMm: 0.5, net: 'VCC' },
      { number: '2', widthMm: 1, lengthMm: 0.5 },
    ])
  })

  it('gives the same where nets are told at points of the copper', async () => {
    const point = (x: number, y: number): string => `<PhyNetPoint x="${x}" y="${y}" layerRef="SIG1"/>`
    const board = await read(
      small({
        nets: `<PhyNetGroup name="p"><PhyNet name="VCC">${point(10, 8.5)}${point(28.5, 10)}</PhyNet><PhyNet name="GND">${point(10, 11.5)}</PhyNet></PhyNetGroup>`,
      }),
    )
    expect(board.description.parts).toHaveLength(2)
    expectIn(board)
  })

  it('says that no file gives nets where none does', async () => {
    expect((await read(small())).untold.join('\n')).toContain('No file gives nets')
  })
})

describe.each(['revision-b.zip', 'revision-c.zip'])('%s of a board, as KiCad’s exporter writes it', (name) => {
  /** The exporter rounds inches to a millionth. */
  const ROUNDING_MM = 1e-4
  let layout: BoardDescription
  let board: BoardImport
  beforeAll(async () => {
    layout = (await importedFixtures('splint.kicad_pcb')).description
    board = await read(unpacked(name))
  })

  it('has all references, places, sides, values, pads, nets and lanes of the layout', () => {
    const { description } = board
    const shift = originShift(layout, description, 'IC14')
    // the exporter gives the pad of the hole, which has no number, one
    expect(padsElsewhere(layout, description, shift, ROUNDING_MM)).toEqual(['H1.'])
    expect(padsElsewhere(description, layout, { x: -shift.x, y: -shift.y }, ROUNDING_MM)).toEqual(['H1.NPTH0'])
    expect(pinGroups(description)).toEqual(pinGroups(layout))
    expect(lanesOf(description)).toEqual(lanesOf(layout))
    // the exporter leaves J2 out of its list of parts, which tells the values
    const rows = ({ parts }: BoardDescription) =>
      parts
        .filter(({ ref }) => ref !== 'J2')
        .map(({ ref, side, value = '' }) => [ref, side, value])
        .toSorted((a, b) => String(a[0]).localeCompare(String(b[0])))
    expect(rows(description)).toEqual(rows(layout))
  })

  it('says that it took off the numbers which the exporter puts behind names that are also balls', () => {
    expect(unpacked(name)).toContain('refDes="C1_1"')
    expect(board.untold.join('\n')).toContain('puts numbers behind names that stand for two things')
  })

  it('has the edge, and the bodies that the layout draws', () => {
    const { description } = board
    expect(Math.abs(signedArea(description.outline))).toBeCloseTo(Math.abs(signedArea(layout.outline)), 1)
    const sizes = ({ parts }: BoardDescription) =>
      parts
        .filter(({ ref }) => !['H1', 'J1', 'J2'].includes(ref))
        .map(({ ref, body }) => ({
          ref,
          size: [body?.widthMm ?? 0, body?.lengthMm ?? 0].toSorted((a, b) => a - b),
        }))
        .toSorted((a, b) => a.ref.localeCompare(b.ref))
    // the exporter draws outlines around the lines of the layout, which are 0.05 mm wide
    expect(sizes(description)).toEqual(
      sizes(layout).map(({ ref, size }) => ({ ref, size: size.map((mm) => expect.closeTo(mm, 0)) })),
    )
  })

  it('has the copper layers with their thickness, and holes', () => {
    expect(board.description.copper.map(({ thicknessUm }) => Math.round(thicknessUm * 10) / 10)).toEqual([
      35, 17.5, 17.5, 35,
    ])
    expect(board.description.holes).toHaveLength(layout.holes.length)
  })

  it('loads as a board', () => {
    expect(loadBoard(JSON.parse(JSON.stringify(board.description))).ok).toBe(true)
  })
})

describe('XML that is broken or made to harm', () => {
  const inside = (xml: string): string => `<IPC-2581 revision="C">\n${xml}\n</IPC-2581>\n`

  it.each([
    ['is cut off', small().slice(0, 900), /^card\.xml, line 1\d: the end of the file within/],
    ['has a document type', `<!DOCTYPE IPC-2581>\n${inside('')}`, /./],
    ['has entities that grow', inside('<!ENTITY a "ha"><Bom/>'), /^card\.xml, line 2: a document type or an entity/],
    ['uses an entity of its own', inside('<Bom name="&lol;"><BomItem x="&lol;"/></Bom>'), /^card\.xml, line 2: &lol;/],
    [
      'nests without an end',
      inside(`${'<a>'.repeat(200)}${'</a>'.repeat(200)}`),
      /^card\.xml, line 2: elements within each other 100 deep/,
    ],
    ['closes what it has not opened', inside('<Bom></Ecad>'), /^card\.xml, line 2: <\/Ecad>/],
    ['has a number of no board', small().replace('y="10"', 'y="1e300"'), /^card\.xml, line \d+: y="1e300"/],
    ['has a number that is none', small().replace('y="10"', 'y="ten"'), /^card\.xml, line \d+: y="ten"/],
    ['has text after its end', `${inside('')}more`, /^card\.xml, line 4: "more"/],
    ['has an attribute without quotes', inside('<Bom><BomItem a=1/></Bom>'), /^card\.xml, line 2: "a=1"/],
  ])('%s: is refused with a line', async (_, text, fault) => {
    const [first = 'nothing'] = await faultsOf(text)
    expect(first).toMatch(fault)
  })

  it('has a tag without an end: is refused before it fills the memory', async () => {
    async function* endless(): AsyncIterable<Uint8Array> {
      yield new TextEncoder().encode('<IPC-2581 revision="C"><Bom name="')
      const piece = new TextEncoder().encode('a'.repeat(65_536))
      while (true) yield piece
    }
    const result = await importBoard([{ name: 'card.xml', bytes: endless() }])
    expect(result).toMatchObject({ ok: false, faults: [{ found: 'a tag without an end' }] })
  })

  it('is another kind of XML: tells no board', async () => {
    expect(boardFormatOf('<?xml version="1.0"?>\n<svg/>')).toBeUndefined()
  })

  it('comes in pieces of any size: is read alike', async () => {
    const text = small({ nets: LOGICAL })
    const whole = await read(text)
    for (const size of [1, 7, 64]) {
      async function* pieces(): AsyncIterable<Uint8Array> {
        const bytes = new TextEncoder().encode(text)
        for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
      }
      const result = await importBoard([{ name: 'card.xml', bytes: pieces() }])
      expect(result.ok && result.value.description).toEqual(whole.description)
    }
  })
})
