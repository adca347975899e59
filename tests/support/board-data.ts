/**
 * Board data files and what they are held to. Those in tests/fixtures/board-data were written by the exporters of KiCad 9.0.8
 * out of `splint.kicad_pcb`, an invented board; the others come out of Debian packages and stay there.
 */
import { createReadStream, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { TestContext } from 'vitest'
import { distance, placePoint, type Point } from '../../src/base/index.ts'
import { type BoardDescription, type BoardImport, importBoard, type Part } from '../../src/board/index.ts'
import { bytesOf } from './kicad-text.ts'
import { packagedFile } from './kicad-truth.ts'

export const fixturePath = (name: string): string => `tests/fixtures/board-data/${name}`
export const fixtureText = (name: string): string => readFileSync(fixturePath(name), 'utf8')

/** Text as a file of a name. */
export const textFile = (name: string, text: string) => ({ name, bytes: bytesOf(text) })

/** The import of files that must be readable. */
export async function importedFiles(paths: readonly string[]): Promise<BoardImport> {
  const files = paths.map((path) => ({ name: basename(path), bytes: createReadStream(path) }))
  const result = await importBoard(files, { name: 'board' })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

export const importedFixtures = (...names: string[]): Promise<BoardImport> => importedFiles(names.map(fixturePath))

/** The folder of examples in Debian's `gerbv`, which were drawn by many programs; none of them is KiCad. */
export const gerbvExamples = (context: TestContext): Promise<string> =>
  packagedFile({ name: 'gerbv', version: '2.9.6-1', suite: 'bookworm', path: 'usr/share/doc/gerbv/examples' }, context)

/** One file of them. */
export const gerbvExample = async (path: string, context: TestContext): Promise<string> =>
  join(await gerbvExamples(context), path)

/** The folder of references that pcb-rnd's own tests hold its exporters to: one construct a file. */
export const pcbRndReferences = (context: TestContext): Promise<string> =>
  packagedFile(
    {
      name: 'pcb-rnd',
      version: '3.0.6-1',
      suite: 'bookworm',
      path: 'tests/RTT/ref',
      sourceFolder: 'pcb-rnd-3.0.6',
    },
    context,
  )

/** Places of a part's pads on the board by number, one for each pad. */
export function padPlaces(
  part: Part,
): { readonly number: string; readonly at: Point; readonly net: string | undefined }[] {
  const placement = { at: part.at, rotationDeg: part.rotationDeg, mirrored: part.side === 'bottom' }
  return (part.pads ?? []).map((pad) => ({ number: pad.number, at: placePoint(pad.at, placement), net: pad.net }))
}

/** A board's parts by reference. */
export const partsByRef = ({ parts }: BoardDescription): ReadonlyMap<string, Part> =>
  new Map(parts.map((part) => [part.ref, part]))

/** How far a board's origin lies from another's, by a pad of one part that both number alike. */
export function originShift(a: BoardDescription, b: BoardDescription, ref: string): Point {
  const [first, second] = [a, b].map((board) => partsByRef(board).get(ref))
  if (first === undefined || second === undefined) throw new Error(`no part ${ref} on both boards`)
  const there = new Map(padPlaces(second).map(({ number, at }) => [number, at]))
  const shared = padPlaces(first).find(({ number }) => there.has(number))
  const [from, to] = [shared?.at ?? first.at, there.get(shared?.number ?? '') ?? second.at]
  return { x: to.x - from.x, y: to.y - from.y }
}

/** `U1.3` of each pad whose like stands nowhere near on the other board. */
export function padsElsewhere(a: BoardDescription, b: BoardDescription, shift: Point, withinMm: number): string[] {
  const others = partsByRef(b)
  return a.parts.flatMap((part) => {
    const other = others.get(part.ref)
    const there = other === undefined ? [] : padPlaces(other)
    return padPlaces(part).flatMap(({ number, at }) => {
      const wanted = { x: at.x + shift.x, y: at.y + shift.y }
      const isThere = there.some((pad) => pad.number === number && distance(pad.at, wanted) <= withinMm)
      return isThere ? [] : [`${part.ref}.${number}`]
    })
  })
}

/** Which pins hang together, whatever the nets are called: each net as its pins in order, nets of one pin left out. */
export function pinGroups(description: BoardDescription): string[] {
  const groups = new Map<string, Set<string>>()
  for (const part of description.parts)
    for (const { number, net } of part.pads ?? []) {
      if (net === undefined) continue
      const own = groups.get(net) ?? new Set<string>()
      groups.set(net, own.add(`${part.ref}.${number}`))
    }
  return [...groups.values()]
    .filter((pins) => pins.size > 1)
    .map((pins) => [...pins].toSorted().join(' '))
    .toSorted()
}

/** Each lane with its balls at both ends. */
export const lanesOf = ({ memory }: BoardDescription) =>
  memory.channels
    .flatMap(({ id, lanes }) => lanes.map(({ name, bits }) => ({ lane: `${id}.${name}`, bits })))
    .toSorted((a, b) => a.lane.localeCompare(b.lane))
