/** Data files of one board, dropped together or in one zip file, begin a case on the board that they tell. */
import { zipSync } from 'fflate'
import { page } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { takeFile, takeFiles } from '../../src/view/actions/drop.ts'
import { type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(() => app.reset())
afterAll(() => app.close())

const CORNER = { x: 420, y: 64 }

const netlist = [
  'P  UNITS CUST 1',
  '327GND              U1    -1          A01X+010000Y+010000X1000Y1000R000S2',
  '327VCC              U1    -2          A01X+014000Y+010000X1000Y1000R000S2',
  '327VCC              C7    -1          A02X+030000Y+030000X0500Y0500R000S1',
  '327GND              C7    -2          A02X+031000Y+030000X0500Y0500R000S1',
  '999',
].join('\n')
const places = 'Ref,Val,X (mm),Y (mm),Rot,Side\nU1,own,112,210,0,top\nC7,100n,130.5,230,90,bottom\n'

const parts = () =>
  app.desk.cases.getState().board?.model.description.parts.map(({ ref, side, rotationDeg, value, pads }) => ({
    ref,
    side,
    rotationDeg,
    value,
    nets: pads?.map(({ net }) => net),
  }))
const both = [
  { ref: 'U1', side: 'top', rotationDeg: 0, value: 'own', nets: ['GND', 'VCC'] },
  { ref: 'C7', side: 'bottom', rotationDeg: 90, value: '100n', nets: ['VCC', 'GND'] },
]

test('a netlist and a table of places, dropped together, are one board', async () => {
  await takeFiles(app.desk, [new File([netlist], 'nets.txt'), new File([places], 'places.txt')], CORNER)
  await waitUntil(() => parts()?.length === 2)
  expect(parts()).toMatchObject(both)
  expect(app.desk.screen.getState().message?.lines?.join('\n')).toContain('places.txt counts from another origin')
})

test('the same in one zip file are too', async () => {
  const bytes = (text: string) => new TextEncoder().encode(text)
  const packed = zipSync({ 'out/nets.txt': bytes(netlist), 'out/places.txt': bytes(places) })
  await takeFile(app.desk, new File([new Uint8Array(packed)], 'card.zip'), CORNER)
  await waitUntil(() => parts()?.length === 2)
  expect(parts()).toMatchObject(both)
})

test('a fault in one of them is told with its file and line, and the case on the desk stays', async () => {
  const before = app.desk.cases.getState().board
  const cut = netlist.replace('Y+030000X0500Y0500R000S1\n327GND', '\n327GND')
  await takeFiles(app.desk, [new File([cut], 'nets.txt'), new File([places], 'places.txt')], CORNER)
  expect(app.desk.screen.getState().message?.faults).toMatchObject([{ path: 'nets.txt, line 4' }])
  expect(app.desk.cases.getState().board).toBe(before)
})
