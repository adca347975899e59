/** Independently obtained answers about real layouts (tests/fixtures/kicad), with the file that they are about. */
import { createReadStream, readFileSync } from 'node:fs'
import type { TestContext } from 'vitest'
import { z } from 'zod'
import { importKicad, type KicadImport } from '../../src/board/index.ts'
import { debianFile, type DebianPackage, sha256Of } from './debian-demos.ts'

const side = z.enum(['top', 'bottom'])
const dataRow = z.tuple([
  z.enum(['DQ', 'DQS', 'DM']),
  z.string(),
  z.string(),
  z.string(),
  z.string(),
  z.number(),
  z.number(),
  z.number(),
  z.number(),
])
const partRow = z.tuple([z.string(), side, z.number(), z.number(), z.number(), z.int(), z.int()], z.number())

const truthSchema = z.object({
  package: z.object({ name: z.string(), version: z.string(), suite: z.string(), path: z.string() }),
  sha256: z.string(),
  bytes: z.int(),
  formatVersion: z.int(),
  copperLayers: z.array(z.string()),
  outlineBox: z.tuple([z.number(), z.number(), z.number(), z.number()]),
  outlineSizeMm: z.tuple([z.number(), z.number()]),
  counts: z.object({
    footprints: z.int(),
    pads: z.int(),
    numberedPads: z.int(),
    netsOnPads: z.int(),
    netsOnSeveralPads: z.int(),
    top: z.int(),
    bottom: z.int(),
    tracks: z.int(),
    vias: z.int(),
    zones: z.int(),
  }),
  biggestNets: z.array(z.tuple([z.string(), z.int()])),
  core: z.string(),
  memories: z.array(z.object({ ref: z.string(), data: z.array(dataRow) })),
  powerParts: z.array(z.string()),
  parts: z.array(partRow),
})
export type KicadTruth = z.infer<typeof truthSchema>

/** @param name `video`, `kit-dev-coldfire` or `vme-wren` */
export function kicadTruth(name: string): KicadTruth {
  return truthSchema.parse(JSON.parse(readFileSync(`tests/fixtures/kicad/${name}.expected.json`, 'utf8')))
}

/** Path of the file that the answers are about; one that is not the file that was counted always fails. */
export async function realFile(truth: KicadTruth, context: TestContext): Promise<string> {
  const path = await packagedFile(truth.package, context)
  const found = await sha256Of(path)
  if (found !== truth.sha256)
    throw new Error(
      `${truth.package.path} of ${truth.package.version} has changed: SHA-256 is ${found}, the answers are about ${truth.sha256}. Count it anew before trusting either.`,
    )
  return path
}

/**
 * Path of a file out of a Debian package. Where the package can't be had the test says so and is skipped, or fails if
 * LIFTMAP_NO_SKIP is set.
 */
export async function packagedFile(wanted: DebianPackage, context: TestContext): Promise<string> {
  const fetched = await debianFile(wanted)
  if (fetched.ok) return fetched.path
  console.warn(`NOT TESTED on a real board: ${fetched.reason}`)
  if (process.env['LIFTMAP_NO_SKIP'] === '1') throw new Error(fetched.reason)
  return context.skip(fetched.reason)
}

const imports = new Map<string, Promise<KicadImport>>()

/** The import of a file that must be readable, done once. */
export function importedFile(path: string): Promise<KicadImport> {
  const running = imports.get(path) ?? importFile(path)
  imports.set(path, running)
  return running
}

async function importFile(path: string): Promise<KicadImport> {
  const result = await importKicad(createReadStream(path), { name: 'board' })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}
