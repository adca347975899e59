/** How layouts are read as a stream: any chunk borders, any damage, clear faults, no hang, no throw. */
import { readFileSync } from 'node:fs'
import { fc, test } from '@fast-check/vitest'
import { describe, expect, it } from 'vitest'
import type { Result } from '../../src/base/index.ts'
import { importKicad, type KicadImport, loadBoard } from '../../src/board/index.ts'
import { footprintText, imported, importText, layoutText } from '../support/kicad-text.ts'

const VERSION_5 = readFileSync('tests/fixtures/kicad/version-5.kicad_pcb', 'utf8')
const NAMES_ONLY = readFileSync('tests/fixtures/kicad/names-only.kicad_pcb', 'utf8')
const FIXTURES = [VERSION_5, NAMES_ONLY] as const

/** What is wrong with an answer: it must be a board that loads, or faults that each say where, what and what else. */
function complaintsAbout(result: Result<KicadImport>): unknown[] {
  if (result.ok) {
    const model = loadBoard(JSON.parse(JSON.stringify(result.value.description)))
    return model.ok ? [] : [...model.faults]
  }
  if (result.faults.length === 0) return ['refused without a fault']
  return result.faults.filter(
    ({ path, found, expected }) => !/^(line \d+|\$)/.test(path) || found === '' || expected === '',
  )
}

async function* repeated(piece: string, count: number, head = ''): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(head)
  const bytes = new TextEncoder().encode(piece)
  for (let i = 0; i < count; i++) yield bytes
}

describe('chunks', () => {
  it.each([1, 2, 3, 7, 64, 1000])('of %i bytes give the same board as the whole', async (pieceBytes) => {
    for (const text of FIXTURES) {
      const whole = await imported(text)
      const pieces = await importText(text, { pieceBytes })
      expect(pieces).toEqual({ ok: true, value: whole })
    }
  })

  it('may end lines with CRLF and begin with a byte order mark', async () => {
    const plain = await imported(VERSION_5)
    const other = await imported(`\uFEFF${VERSION_5.replaceAll('\n', '\r\n')}`)
    expect(other.description).toEqual(plain.description)
    expect(other.counts.lines).toBe(plain.counts.lines)
  })

  it('report how many bytes are read', async () => {
    const seen: number[] = []
    await importText(VERSION_5, { pieceBytes: 1000, onProgress: (bytes) => seen.push(bytes) })
    expect(seen.at(-1)).toBe(new TextEncoder().encode(VERSION_5).length)
    expect(seen).toEqual(seen.toSorted((a, b) => a - b))
  })

  it('are no longer taken once the reader is told to stop', async () => {
    const stop = new AbortController()
    let taken = 0
    async function* endless(): AsyncIterable<Uint8Array> {
      yield new TextEncoder().encode('(kicad_pcb ')
      for (;;) {
        if (++taken === 10) stop.abort()
        yield new TextEncoder().encode('(footprint "a" (at 0 0)) ')
      }
    }
    const result = await importKicad(endless(), { signal: stop.signal })
    expect(result).toMatchObject({ ok: false, faults: [{ found: 'a request to stop' }] })
    expect(taken).toBe(10)
  })
})

describe('huge and hostile files', () => {
  it('of 50 MB of opening brackets are refused without reading them all', async () => {
    let taken = 0
    async function* counted(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
      for await (const piece of pieces) {
        taken++
        yield piece
      }
    }
    expect(await importKicad(counted(repeated('('.repeat(1_000_000), 50)))).toMatchObject({ ok: false })
    const nested = await importKicad(counted(repeated('('.repeat(1_000_000), 50, '(kicad_pcb ')))
    expect(nested).toMatchObject({ ok: false, faults: [{ found: 'brackets inside more than 200 others' }] })
    expect(taken).toBeLessThanOrEqual(4)
  })

  it('of 50 MB of empty brackets are read through and refused as cut off', async () => {
    const result = await importKicad(repeated('()'.repeat(500_000), 50, '(kicad_pcb '))
    expect(result).toMatchObject({ ok: false, faults: [{ found: 'the end of the file inside 1 open brackets' }] })
  })

  it('with one form or text without end are refused', async () => {
    const form = await importKicad(repeated('(a)'.repeat(300_000), 50, '(kicad_pcb (footprint '))
    expect(form).toMatchObject({ ok: false, faults: [{ found: 'a form without end' }] })
    const text = await importKicad(repeated('a'.repeat(1_000_000), 50, '(kicad_pcb (footprint "'))
    expect(text).toMatchObject({ ok: false, faults: [{ found: 'a text without end' }] })
  })

  it('with thousands of parts of one name end soon, every part kept', async () => {
    const parts = Array.from({ length: 15_000 }, () => '(footprint "x" (at 1 1) (fp_text reference "R1"))')
    const { description } = await imported(layoutText(parts))
    expect(new Set(description.parts.map((part) => part.ref)).size).toBe(15_000)
    expect(description.parts.at(-1)?.ref).toBe('R1#15000')
  })

  it('with names of the language itself do no harm', async () => {
    const names = ['__proto__', 'constructor', 'toString', 'hasOwnProperty']
    const parts = names.map((name) => footprintText(name, [{ number: name, x: 0, y: 0, net: name }]))
    const board = await imported(layoutText(parts))
    expect(board.description.parts.map((part) => part.ref)).toEqual(names)
    expect(board.counts.nets).toBe(4)
    expect(Object.hasOwn(Object.prototype, 'ref')).toBe(false)
    expect(complaintsAbout({ ok: true, value: board })).toEqual([])
  })

  it('with net names too long for a description keep them apart', async () => {
    const long = 'N'.repeat(300)
    const pads = [`${long}A`, `${long}B`, `${long}A`].map((net, k) => ({ number: `${k}`, x: k, y: 0, net }))
    const { description, untold } = await imported(layoutText([footprintText('U1', pads)]))
    const nets = description.parts[0]?.pads?.map((pad) => pad.net)
    expect(nets?.[0]).toBe(nets?.[2])
    expect(nets?.[0]).not.toBe(nets?.[1])
    expect(untold.join('\n')).toContain('2 net names are longer')
  })
})

describe('a slip of some writers of version 9', () => {
  // `(curved_edges no)filter_ratio 0.9)`, as a layout in Debian's kicad-demos 9.0.8 has it on every pad.
  it('that leaves out one bracket inside teardrops is read as meant', async () => {
    const teardrops = '(teardrops (max_length 1) (curved_edges no)filter_ratio 0.9) (enabled yes))'
    const plain = footprintText('U1', [{ number: '1', x: 0, y: 0, net: 'GND' }])
    const slipped = plain.replace('(net 1 "GND")', `(net 1 "GND") ${teardrops}`)
    expect((await imported(layoutText([slipped]))).description).toEqual(
      (await imported(layoutText([plain]))).description,
    )
  })
})

describe('damaged files', () => {
  test.prop([fc.constantFrom(...FIXTURES), fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true })], {
    seed: 20_260_101,
    numRuns: 150,
  })('cut off anywhere are refused', async (text, share) => {
    const cut = text.slice(0, Math.floor(share * (text.trimEnd().length - 1)))
    const result = await importText(cut, { pieceBytes: 500 })
    expect(result.ok).toBe(false)
    expect(complaintsAbout(result)).toEqual([])
  })

  const edit = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    drop: fc.nat({ max: 30 }),
    put: fc.oneof(
      fc.constantFrom(
        '(',
        ')',
        '"',
        '\\',
        ' ',
        '\n',
        '0',
        '-',
        'NaN',
        '1e999',
        '(at',
        '()',
        '__proto__',
        '\u0000',
        'é',
      ),
      fc.string({ maxLength: 8 }),
    ),
  })
  test.prop([fc.constantFrom(...FIXTURES), fc.array(edit, { minLength: 1, maxLength: 6 })], {
    seed: 20_260_102,
    numRuns: 300,
  })('changed anywhere give a board that loads or clear faults', async (text, edits) => {
    let changed = text
    for (const { at, drop, put } of edits) {
      const place = Math.floor(at * changed.length)
      changed = changed.slice(0, place) + put + changed.slice(place + drop)
    }
    expect(complaintsAbout(await importText(changed, { pieceBytes: 997 }))).toEqual([])
  })

  const name = fc.constantFrom(
    ...'footprint module at pad layer layers net gr_line gr_arc gr_poly pts xy start end mid angle center'.split(' '),
    ...'segment via zone filled_polygon property version x'.split(' '),
  )
  const atom = fc.oneof(
    fc.constantFrom('F.Cu', 'B.Cu', 'Edge.Cuts', '"Reference"', '0', '1', '-5', '1e3', '""', 'smd', 'rect', 'DQ1'),
    fc.double({ min: -50, max: 50, noNaN: true }).map(String),
  )
  const { form } = fc.letrec<{ form: string; item: string }>((tie) => ({
    item: fc.oneof({ maxDepth: 4, depthSize: 'small' }, atom, tie('form')),
    form: fc
      .tuple(name, fc.array(tie('item'), { maxLength: 6 }))
      .map(([head, items]) => `(${[head, ...items].join(' ')})`),
  }))
  test.prop([fc.array(form, { maxLength: 20 })], { seed: 20_260_103, numRuns: 300 })(
    'of random forms give a board that loads or clear faults',
    async (forms) => {
      const part = footprintText('U1', [{ number: '1', x: 0, y: 0 }], { x: 10, y: 10 })
      expect(complaintsAbout(await importText(layoutText([part, ...forms])))).toEqual([])
    },
  )
})
