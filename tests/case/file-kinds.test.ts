/** What a file is, told by its content, for the screen and the command line. */
import { expect, test } from 'vitest'
import { fileKindOf } from '../../src/case/index.ts'

const kindOf = async (...parts: BlobPart[]) => fileKindOf(new Uint8Array(await new Blob(parts).arrayBuffer()))

test.each([
  ['(kicad_pcb (version 20211014)', 'layout'],
  ['\n  (kicad_pcb\n\t(version 20240108)', 'layout'],
  ['{ "format": "liftmap-case", "version": 1 }', 'case'],
  ['{"$schema":"x","format":"liftmap-board","version":1}', 'board'],
  ['\ufeff{ "format" : "liftmap-board" }', 'board'],
  ['{"format":"liftmap-case","board":{"inline":{"format":"liftmap-board","outline":[],"parts":[]}}}', 'case'],
  ['{"board":{"inline":{"format":"liftmap-board"}},"format":"liftmap-case"}', 'case'],
  ['{"format":"liftmap-report-words","version":1}', 'words'],
  ['{ "outline": [], "parts": [] }', 'board'],
  ['{"format":"liftmap-counts","version":1}', 'counts'],
  ['{"address":"0x10","expected":"0xff"}\n', 'report'],
  ['address,expected,actual\n0x10,0xff,0xfe', 'report'],
  ['P  UNITS CUST 0\n327GND              R1    -1          A01X+001659Y+003750X0511Y0748R000 S1\n999', 'netlist'],
  ['Ref,Val,Package,PosX,PosY,Rot,Side\n"C2","100n","C_0603",3.5,-6.7,90.0,bottom', 'placements'],
  ['<?xml version="1.0"?>\n<IPC-2581 revision="C" xmlns="http://webstds.ipc.org/2581">', 'ipc2581'],
  ['<?xml version="1.0"?>\n<svg/>', 'report'],
  ['%TF.FileFunction,Profile,NP*%\n%FSLAX46Y46*%\n%MOMM*%', 'gerber'],
  ['part,count\nU1,5', 'report'],
  ['', 'empty'],
  ['  \n \n', 'empty'],
])('%j is a %s', async (text, kind) => {
  expect(await kindOf(text)).toBe(kind)
})

test('text in UTF-16 with and without its mark is a report', async () => {
  const utf16 = Uint16Array.from({ length: 29 }, (_, i) => '0x10 0xff 0xfe\n0x20 0xff 0xfd'.charCodeAt(i))
  expect(await kindOf(new Uint8Array([0xff, 0xfe]), utf16)).toBe('report')
  expect(await kindOf(utf16)).toBe('report')
})

test('bytes that are no text are told apart, whatever the file is called', async () => {
  expect(await kindOf(new Uint8Array([0x1f, 0x8b, 8, 0, 20, 0, 0, 0, 8, 0, 99, 200]))).toBe('binary')
  expect(await kindOf(new Uint8Array([0x50, 0x4b, 3, 4, 20, 0, 0, 0, 8, 0, 99, 200]))).toBe('zip')
})
