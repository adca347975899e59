/** Data files of boards cut, changed and made to harm: an answer each time, a board or faults that say where; nothing thrown. */
import { fc, test as property } from '@fast-check/vitest'
import { readFileSync } from 'node:fs'
import { unzipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { boardFormatOf, importBoard, loadBoard } from '../../src/board/index.ts'
import { fixturePath, fixtureText, textFile } from '../support/board-data.ts'

const [ipc2581 = new Uint8Array()] = Object.values(
  unzipSync(new Uint8Array(readFileSync(fixturePath('revision-b.zip')))),
)
/** Short enough to be read hundreds of times: the beginnings with their ends. */
const short = (text: string, lines: number, end: string): string =>
  `${text.split('\n').slice(0, lines).join('\n')}\n${end}\n`
const netlist = short(fixtureText('netlist.d356'), 60, '999')
const texts = {
  netlist,
  placements: fixtureText('places.csv'),
  gerber: short(fixtureText('places-top.gbr'), 120, 'M02*'),
  edge: fixtureText('edge.gbr'),
  ipc2581: new TextDecoder().decode(ipc2581).slice(0, 30_000),
}

async function answerTo(text: string, beside?: string): Promise<boolean> {
  const files = [textFile('fuzzed', text), ...(beside === undefined ? [] : [textFile('whole', beside)])]
  const result = await importBoard(files)
  if (!result.ok) {
    expect(result.faults.length).toBeGreaterThan(0)
    expect(result.faults.every(({ path, found, expected }) => path !== '' && found !== '' && expected !== '')).toBe(
      true,
    )
    return false
  }
  const model = loadBoard(JSON.parse(JSON.stringify(result.value.description)))
  expect(model.ok ? [] : model.faults).toEqual([])
  return true
}

const kinds = fc.constantFrom(...Object.values(texts))
/** What each format has a meaning for, and what none has. */
const words = fc.constantFrom(
  '',
  '*',
  '%',
  '<',
  '>',
  '"',
  '&',
  '\n',
  '\0',
  ',',
  ' ',
  '-',
  'X',
  'D03*',
  'G36*',
  '%SRX99Y99I0J0*%',
  '327',
  '1e999',
  '-0',
  '99999999999999999999',
  'NaN',
  '<a>',
  '</Set>',
  '<!-- ',
  ']]>',
  'top',
  'R1',
  '\ud83d\ude00',
)

describe('any file', () => {
  property.prop([kinds, fc.double({ min: 0, max: 1, noNaN: true })], { numRuns: 60 })(
    'cut anywhere',
    async (text, share) => {
      await answerTo(text.slice(0, Math.floor(text.length * share)))
    },
  )

  property.prop([kinds, fc.array(fc.tuple(fc.nat(), fc.nat(4), words), { minLength: 1, maxLength: 6 })], {
    numRuns: 120,
  })('with words put in the place of others', async (text, changes) => {
    const changed = changes.reduce((now, [at, length, word]) => {
      const from = at % (now.length + 1)
      return `${now.slice(0, from)}${word}${now.slice(from + length)}`
    }, text)
    await answerTo(changed)
  })

  property.prop([kinds, fc.nat(), fc.nat()], { numRuns: 60 })(
    'with lines in another order, beside a whole one',
    async (text, a, b) => {
      const lines = text.split('\n')
      const [i, j] = [a % lines.length, b % lines.length]
      const swapped = lines.map((line, k) => (k === i ? (lines[j] ?? '') : k === j ? (lines[i] ?? '') : line))
      await answerTo(swapped.join('\n'), netlist)
    },
  )

  property.prop([fc.uint8Array({ maxLength: 2000 })], { numRuns: 60 })('of any bytes', async (bytes) => {
    async function* once(): AsyncIterable<Uint8Array> {
      yield bytes
    }
    const result = await importBoard([{ name: 'bytes', bytes: once() }])
    expect(result.ok).toBe(false)
  })
})

describe('a file that is made to take for ever', () => {
  const blanks = ' '.repeat(900_000)
  it.each([
    ['remarks without an end of them', '<!---->'.repeat(9000)],
    ['blanks in a tag', `<IPC-2581 revision="C"><Bom${blanks}/></IPC-2581>`],
    ['blanks before a sign that does not come', `<IPC-2581 revision="C"${blanks}x></IPC-2581>`],
    ['blanks in records', `P  UNITS CUST 0\n${`327${blanks.slice(0, 90_000)}\n`.repeat(10)}999\n`],
    [
      'a record that goes on and on',
      `P  UNITS CUST 0\n${netlist.split('\n')[4]}\n389BOARD_EDGE X\n${`089${blanks.slice(0, 60)}\n`.repeat(20_000)}999\n`,
    ],
    ['headings of nothing but strokes', `${`${'-'.repeat(4000)}\n`.repeat(100)}Ref,X,Y,Rot\n`],
    [
      'macros of macros',
      `%FSLAX46Y46*%\n%MOMM*%\n%AMA*\n${'1,1,$1,0,0*\n'.repeat(5000)}%\n${'%ADD10A,1*%\n'.repeat(5000)}M02*\n`,
    ],
    ['brackets in a macro', `%FSLAX46Y46*%\n%MOMM*%\n%AMA*\n1,1,${'('.repeat(50_000)}*\n%\n%ADD10A,1*%\nM02*\n`],
    [
      'an edge of very many lines',
      `%TF.FileFunction,Profile,NP*%\n%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,0.1*%\nD10*\n${'X0Y0D02*\nX1000Y1000D01*\n'.repeat(30_000)}M02*\n`,
    ],
  ])('%s: is answered', { timeout: 10_000 }, async (_, text) => {
    boardFormatOf(text.slice(0, 65_536))
    expect(await answerTo(text)).toBe(false)
  })
})
