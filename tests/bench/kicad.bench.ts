/** How long real layouts take to become a board, beside decoding the same bytes as text and nothing else. */
import { createReadStream } from 'node:fs'
import { importKicad, loadBoard } from '../../src/board/index.ts'
import { debianFile } from '../support/debian-demos.ts'
import { kicadTruth } from '../support/kicad-truth.ts'

const RUNS = 3

export async function benchKicad(): Promise<object> {
  const results: Record<string, object> = {}
  for (const name of ['video', 'kit-dev-coldfire', 'vme-wren']) results[name] = await benchFile(name)
  return { what: 'layout file to checked board, median of three runs, against decoding its bytes as text', ...results }
}

async function benchFile(name: string): Promise<object> {
  const truth = kicadTruth(name)
  const fetched = await debianFile(truth.package)
  if (!fetched.ok) return { notMeasured: fetched.reason }
  const importMs: number[] = []
  const loadMs: number[] = []
  const decodeMs: number[] = []
  for (let run = 0; run < RUNS; run++) {
    decodeMs.push(await timed(() => decodeOnly(fetched.path)))
    let description: unknown
    importMs.push(
      await timed(async () => {
        const imported = await importKicad(createReadStream(fetched.path), { name })
        if (imported.ok) description = imported.value.description
      }),
    )
    loadMs.push(await timed(async () => void loadBoard(description)))
  }
  return {
    bytes: truth.bytes,
    importMs: median(importMs),
    loadMs: median(loadMs),
    decodeOnlyMs: median(decodeMs),
    importOverDecode: Math.round((median(importMs) / median(decodeMs)) * 10) / 10,
  }
}

async function decodeOnly(path: string): Promise<void> {
  const decoder = new TextDecoder()
  for await (const chunk of createReadStream(path)) decoder.decode(chunk, { stream: true })
}

async function timed(work: () => Promise<void>): Promise<number> {
  const begun = performance.now()
  await work()
  return performance.now() - begun
}

const median = (values: readonly number[]): number =>
  Math.round(values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0)
