/** Tables of places: what columns, units and sides are taken for, on small tables and on two that other programs wrote. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { boardFormatOf, importBoard } from '../../src/board/index.ts'
import {
  fixtureText,
  gerbvExample,
  importedFiles,
  importedFixtures,
  partsByRef,
  textFile,
} from '../support/board-data.ts'

const FETCH_MS = 300_000

const placesOf = async (text: string) => {
  const result = await importBoard([textFile('places', text)])
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  const { parts } = result.value.description
  const [first] = parts
  return {
    untold: result.value.untold.join('\n'),
    parts: parts.map(({ ref, side, at, rotationDeg }) => ({
      ref,
      side,
      // from the first part, as a table has no origin of its own
      away: { x: at.x - (first?.at.x ?? 0), y: at.y - (first?.at.y ?? 0) },
      rotationDeg,
    })),
  }
}

const faultsOf = async (text: string) => {
  const result = await importBoard([textFile('places', text)])
  return result.ok ? [] : result.faults.map(({ path, found }) => `${path}: ${found}`)
}

const two = [
  { ref: 'U1', side: 'top', away: { x: 0, y: 0 }, rotationDeg: 90 },
  { ref: 'C2', side: 'bottom', away: { x: 25.4, y: 12.7 }, rotationDeg: -45 },
]

describe('the same two parts', () => {
  it.each([
    [
      'commas and mm',
      'Ref,Val,Package,PosX,PosY,Rot,Side\n"U1","a, b","Q",10,20,90,top\n"C2","","C",35.4,32.7,-45,bottom',
    ],
    [
      'semicolons and decimal commas',
      'Designator;X (mm);Y (mm);Rotation;Layer\nU1;10,0;20,0;90;TopLayer\nC2;35,4;32,7;-45;BottomLayer',
    ],
    [
      'tabs and inches in the headings',
      'RefDes\tLocation X (in)\tLocation Y (in)\tAngle\tTB\nU1\t0.1\t0.2\t90\tT\nC2\t1.1\t0.7\t-45\tB',
    ],
    ['a unit in each cell', 'Designator,Mid X,Mid Y,Rotation,Layer\nU1,100mil,200mil,90,T\nC2,1100mil,700mil,-45,B'],
    [
      'columns of blanks, a value with a blank and one that is empty',
      '# Ref  Val  Package  PosX  PosY  Rot  Side\n## Unit = mm\nU1  10 k  Q  10.0  20.0  90.0  top\nC2        C  35.4  32.7  -45.0  bottom',
    ],
    [
      'several kinds of points, of which the middle counts',
      'Designator,Ref X,Ref Y,Mid X,Mid Y,Pad X,Pad Y,Layer,Rotation\nU1,0mm,0mm,10mm,20mm,3mm,3mm,T,90\nC2,1mm,1mm,35.4mm,32.7mm,5mm,5mm,B,-45',
    ],
    ['a mirror column for the side', 'Part,X(mm),Y(mm),Orientation,Mirror\nU1,10,20,90,N\nC2,35.4,32.7,-45,Y'],
    [
      'a mark of UTF-8 and lines of the other end',
      '\ufeffRef,PosX,PosY,Rot,Side,Package\r\nU1,10mm,20mm,90,top,Q\r\nC2,35.4mm,32.7mm,-45,bottom,C\r\n',
    ],
  ])('are read from %s', async (_, text) => {
    const { parts } = await placesOf(text)
    expect(parts).toEqual(
      two.map((part) => ({ ...part, away: { x: expect.closeTo(part.away.x, 6), y: expect.closeTo(part.away.y, 6) } })),
    )
  })
})

describe('a table', () => {
  const rows = (headings: string, far: number): string => `${headings}\nU1,0,0,0,top\nU2,${far},${far / 2},0,top\n`

  it('without a unit is read in the one that makes its board as large as boards are, which is said', async () => {
    // 4000 can be thousandths of an inch, 4 inches, 100 millimetres: each is 101.6 or 100 mm
    for (const [far, mm, unit] of [
      [4000, 101.6, 'thousandths of an inch'],
      [4, 101.6, 'inches'],
      [100, 100, 'millimetres'],
    ] as const) {
      const { parts, untold } = await placesOf(rows('Ref,X,Y,Rot,Side', far))
      expect(parts[1]?.away.x).toBeCloseTo(mm, 6)
      expect(untold).toContain(unit)
    }
  })

  it('without headings is known by references, sides and turns', async () => {
    const text = ['R1 10.5 20.5 90 top', 'R2 12.5 22.5 0 top', 'R3 14.5 20.5 270 bottom', 'C1 16.5 28.5 180 top'].join(
      '\n',
    )
    const { parts } = await placesOf(text)
    expect(parts.map(({ ref, side, rotationDeg }) => [ref, side, rotationDeg])).toEqual([
      ['R1', 'top', 90],
      ['R2', 'top', 0],
      ['R3', 'bottom', 270],
      ['C1', 'top', 180],
    ])
  })

  it('gives bodies by the size that stands in a package’s name', async () => {
    const table =
      'Ref,Package,PosX,PosY,Rot,Side\nC1,C_0603_1608Metric,0mm,0mm,0,top\nU1,QFN-32_5x6mm,20mm,10mm,0,top\nU2,BGA180C75P14X12_1400X1200X120,40mm,30mm,0,top\nR1,R0402,50mm,30mm,0,top\nX1,own,60mm,30mm,0,top'
    const result = await importBoard([textFile('places', table)])
    if (!result.ok) throw new Error(JSON.stringify(result.faults))
    const bodies = partsByRef(result.value.description)
    expect(bodies.get('C1')?.body).toMatchObject({ widthMm: 1.6, lengthMm: 0.8 })
    expect(bodies.get('U1')?.body).toMatchObject({ widthMm: 5, lengthMm: 6 })
    expect(bodies.get('U2')?.body).toMatchObject({ widthMm: 14, lengthMm: 12, heightMm: 1.2 })
    expect(bodies.get('R1')?.body).toMatchObject({ widthMm: 1, lengthMm: 0.5 })
    expect(result.value.untold.join('\n')).toMatch(/Neither pads nor a size.*X1/)
  })

  it('says that a board of places alone has neither nets, lanes nor rails', async () => {
    const { untold } = await placesOf(rows('Ref,X,Y,Rot,Side', 100))
    expect(untold).toContain('No file gives nets, so neither lanes nor rails are known.')
  })

  it('names the line of a part whose place can’t be read, and takes nothing of the rest', async () => {
    expect(await faultsOf('Ref,X,Y,Rot,Side\nU1,10,20,0,top\nU2,ten,20,0,top\nU3,1e99,20,0,top\n')).toEqual([
      'places, line 3: U2 ten 20 0 top',
    ])
    expect(await faultsOf('Ref,X,Y,Rot,Side\nU1,10mm,20mm,0,top\nU2,1e30mm,20mm,0,top\n')).toEqual([
      'places: U2 more than 10000 mm away',
    ])
  })
})

describe('a report of a memory test is no table of places', () => {
  it.each([
    'address,expected,actual\n0x10,0xff,0xfe',
    'part,count\nU1,5\nU2,0',
    'U1 0 0 1 2\nU2 0 0 3 4\nU3 5 6 7 8\nU4 5 6 7 8',
    'lane;errors;x;y\nA0;1;2;3',
  ])('%j', (text) => {
    expect(boardFormatOf(text)).toBeUndefined()
  })
})

describe('tables that other programs wrote', () => {
  // counted with grep and awk: rows with a reference, rows whose side is the bottom, single rows by eye
  it('in two kinds of one board are read alike: 282 parts, 25.4 mm in 1000 of its mil', {
    timeout: FETCH_MS,
  }, async (context) => {
    const folder = 'protel-pnp/Pick_Place_for_SE_SG_IF_V2'
    const [comma, blank] = await Promise.all([
      gerbvExample(`${folder}.csv`, context),
      gerbvExample(`${folder}.txt`, context),
    ])
    const [a, b] = [await importedFiles([comma]), await importedFiles([blank])]
    expect(a.description.parts).toHaveLength(282)
    expect(b.description.parts).toEqual(a.description.parts)
    const [first, second] = ['ZB1', 'ZB3'].map((ref) => partsByRef(a.description).get(ref)?.at)
    expect((second?.x ?? 0) - (first?.x ?? 0)).toBeCloseTo((3346.456 - 196.85) * 0.0254, 4)
    expect((second?.y ?? 0) - (first?.y ?? 0)).toBeCloseTo((3937.008 - 393.7) * 0.0254, 4)
  })

  it('behind a heading in comments, in mil by a comment: 46 parts', { timeout: FETCH_MS }, async (context) => {
    const path = await gerbvExample('pick-and-place/LED.xy', context)
    const { description } = await importedFiles([path])
    const rows = readFileSync(path, 'utf8')
      .split('\n')
      .filter((line) => /^[A-Z]+\d+,/.test(line))
    expect(rows).toHaveLength(46)
    expect(description.parts).toHaveLength(46)
    const [j2, u6] = ['J2', 'U6'].map((ref) => partsByRef(description).get(ref))
    expect((u6?.at.y ?? 0) - (j2?.at.y ?? 0)).toBeCloseTo((2555 - 375) * 0.0254, 6)
    expect(u6).toMatchObject({ rotationDeg: 270, value: 'LTC490', side: 'top' })
  })

  it('in mm with commas and in inches with blanks has the same parts at the same places', async () => {
    const [a, b] = [await importedFixtures('places.csv'), await importedFixtures('places-inch.pos')]
    expect(fixtureText('places-inch.pos')).toContain('Unit = inches')
    expect(b.description.parts.map(({ ref, side, rotationDeg }) => [ref, side, rotationDeg])).toEqual(
      a.description.parts.map(({ ref, side, rotationDeg }) => [ref, side, rotationDeg]),
    )
    for (const [i, part] of a.description.parts.entries()) {
      // four decimals of an inch
      expect(b.description.parts[i]?.at.x).toBeCloseTo(part.at.x, 1)
      expect(b.description.parts[i]?.at.y).toBeCloseTo(part.at.y, 1)
    }
  })
})
